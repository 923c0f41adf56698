/** Messages where they belong in the text: a line below the words, a sign in
 * the margin, and at a pointer the message itself with its mends. */
import { setDiagnostics, type Action, type Diagnostic } from '@codemirror/lint';
import { RangeSet, StateEffect, StateField, type Extension } from '@codemirror/state';
import { EditorView, GutterMarker, gutter, keymap } from '@codemirror/view';
import type { App } from '../contract.js';
import type { Message, Severity } from '../engine/types.js';
import { mend } from './mend.js';
import { make, quoted, severitySigns, severityWords } from './words.js';

const kLintNames: Record<Severity, Diagnostic['severity']> = {
  error: 'error', warning: 'warning', note: 'info',
};

function tooltipText(message: Message): Node {
  const box = make('div', 'ed-said');
  const text = make('p', 'ed-said-text');
  text.append(make('b', '', `${severityWords[message.severity]}: `), quoted(message.text));
  box.append(text);
  if (message.help !== '') {
    const help = make('p', 'ed-said-help');
    help.append(quoted(message.help));
    box.append(help);
  }
  return box;
}

// The message may have moved, or its mend be gone, since this was drawn.
function actionsOf(message: Message, index: number, app: App): Action[] {
  return message.fixes.map((fix) => ({
    name: fix.label,
    apply: () => {
      const now = app.session.messages[index];
      const same = now?.name === message.name && now.text === message.text
        ? now.fixes.find((one) => one.label === fix.label) : undefined;
      if (same) void mend(app, same.label, same.files);
    },
  }));
}

/** What is underlined; a message about the whole file only stands below. */
export function diagnosticsOf(app: App, length: number): Diagnostic[] {
  const { messages, path } = app.session;
  return messages.flatMap((message, index) => {
    if (message.path !== path || !message.range || message.range.to > length) return [];
    return [{
      ...message.range,
      severity: kLintNames[message.severity],
      message: message.text,
      renderMessage: () => tooltipText(message),
      actions: actionsOf(message, index, app),
    }];
  });
}

class Sign extends GutterMarker {
  constructor(readonly severity: Severity, readonly count: number) { super(); }
  override eq(other: Sign): boolean {
    return other.severity === this.severity && other.count === this.count;
  }
  override toDOM(): Node {
    const sign = make('span', `ed-sign ed-sign-${this.severity}`, severitySigns[this.severity]);
    sign.title = severityWords[this.severity];
    return sign;
  }
}

const setSigns = StateEffect.define<RangeSet<GutterMarker>>();
const signs = StateField.define<RangeSet<GutterMarker>>({
  create: () => RangeSet.empty,
  update(value, transaction) {
    let now = value.map(transaction.changes);
    for (const effect of transaction.effects) if (effect.is(setSigns)) now = effect.value;
    return now;
  },
});

const kWeight: Record<Severity, number> = { error: 2, warning: 1, note: 0 };

/** Draws the session's messages into the text. */
export function showMessages(view: EditorView, app: App): void {
  const doc = view.state.doc;
  const worst = new Map<number, Sign>();
  for (const message of app.session.messages) {
    if (message.path !== app.session.path || !message.range || message.range.to > doc.length) continue;
    const line = doc.lineAt(message.range.from).from;
    const before = worst.get(line);
    const heavier = !before || kWeight[message.severity] > kWeight[before.severity];
    worst.set(line, new Sign(heavier ? message.severity : before.severity, (before?.count ?? 0) + 1));
  }
  const markers = [...worst].sort((a, b) => a[0] - b[0]).map(([at, sign]) => sign.range(at));
  view.dispatch(setDiagnostics(view.state, diagnosticsOf(app, doc.length)),
                { effects: setSigns.of(RangeSet.of(markers)) });
}

/** The next message behind the cursor, round at the end, or the one before. */
export function nextMessage(messages: readonly Message[], path: string, cursor: number,
                            way: 1 | -1): Message | null {
  const here = messages.filter((message) => message.path === path && message.range)
    .sort((a, b) => (a.range?.from ?? 0) - (b.range?.from ?? 0));
  if (way === -1) here.reverse();
  const beyond = here.find((message) => way * ((message.range?.from ?? 0) - cursor) > 0);
  return beyond ?? here[0] ?? null;
}

export function goToMessage(view: EditorView, app: App, way: 1 | -1): boolean {
  const message = nextMessage(app.session.messages, app.session.path, app.session.cursor, way);
  if (!message?.range) {
    view.dispatch({ effects: EditorView.announce.of('No messages.') });
    return true;
  }
  app.session.goTo({ from: message.range.from, to: message.range.from });
  const text = `${severityWords[message.severity]}: ${message.text}`.replaceAll('`', '');
  view.dispatch({ effects: EditorView.announce.of(text) });
  return true;
}

export function underlines(app: App): Extension {
  return [
    signs,
    gutter({
      class: 'ed-signs',
      markers: (view) => view.state.field(signs),
      initialSpacer: () => new Sign('error', 0),
    }),
    keymap.of([
      { key: 'F8', run: (view) => goToMessage(view, app, 1) },
      { key: 'Shift-F8', run: (view) => goToMessage(view, app, -1) },
    ]),
  ];
}
