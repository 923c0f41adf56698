/** The editor of the lesson's text. */
import { redo, undo, isolateHistory } from '@codemirror/commands';
import { openSearchPanel } from '@codemirror/search';
import { EditorSelection, EditorState, Transaction, type Text } from '@codemirror/state';
import { EditorView, tooltips } from '@codemirror/view';
import type { App, Part } from '../contract.js';
import type { Edit, Range } from '../engine/types.js';
import { createDeeds } from './deeds.js';
import { hovers } from './hover.js';
import { offers } from './offers.js';
import { renewRemarks } from './remarks.js';
import { lessonSession, type LessonSession, type Surface } from './session.js';
import { setup } from './setup.js';
import { showMessages, underlines } from './underlines.js';
import { make, makeButton } from './words.js';

const kHint = 'Tab leaves the text. Control and full stop: what can be done at this place. '
  + 'F8: to the next message. Control and space: what may stand here.';

const kRest = 150;

/** One edit that makes the one text of the other, as small as can be simply
 * had, so that the cursor stays where it is. */
export function smallEdit(before: string, after: string): Edit[] {
  if (before === after) return [];
  const most = Math.min(before.length, after.length);
  let from = 0;
  while (from < most && before[from] === after[from]) from += 1;
  let same = 0;
  while (same < most - from
         && before[before.length - 1 - same] === after[after.length - 1 - same]) same += 1;
  return [{ from, to: before.length - same, insert: after.slice(from, after.length - same) }];
}

class EditorSurface implements Surface {
  constructor(readonly view: EditorView, readonly fresh: (doc: Text) => EditorState) {}

  replace(doc: Text): void {
    this.view.setState(this.fresh(doc));
    this.view.scrollDOM.scrollTop = 0;
  }
  change(edits: readonly Edit[]): void {
    this.view.dispatch({
      changes: edits.map((edit) => ({ ...edit })),
      annotations: [isolateHistory.of('full'), Transaction.userEvent.of('input.sheaf')],
    });
  }
  show(range: Range): void {
    const selection = EditorSelection.single(range.from, range.to);
    this.view.dispatch({
      selection,
      effects: EditorView.scrollIntoView(selection.main, { y: 'nearest', yMargin: 60 }),
      userEvent: 'select.sheaf',
    });
    // It may be hidden, on a narrow page or behind the form, until whoever
    // asked for this has shown it.
    if (this.view.dom.getClientRects().length === 0) return;
    this.view.focus();
    // What was hidden could not be scrolled.
    this.view.requestMeasure();
    this.view.dispatch({
      effects: EditorView.scrollIntoView(selection.main, { y: 'nearest', yMargin: 60 }),
    });
  }
  undo(): void { undo(this.view); }
  redo(): void { redo(this.view); }
}

async function tidy(app: App, session: LessonSession): Promise<void> {
  session.push();
  const version = session.version;
  const text = await app.engine.formatted(session.path).catch(() => null);
  if (text === null) return app.say('The lines could not be put in order.', 'fault');
  if (version !== session.version) return;
  const edits = smallEdit(session.text, text);
  if (edits.length === 0) return app.say('The lines are in order already.');
  session.apply(edits);
  app.say('The lines are in order now. Nothing that they say was changed.', 'done');
}

export const createEditor: Part = (parent: HTMLElement, app: App): void => {
  const session = lessonSession(app.session);
  const root = make('div', 'ed');
  const tools = make('div', 'ed-tools');
  tools.setAttribute('role', 'group');
  tools.setAttribute('aria-label', 'The lesson text');
  const hint = make('p', 'quiet', kHint);
  hint.id = 'ed-hint';
  const place = make('div', 'ed-place');
  root.append(tools, hint, place);
  parent.append(root);

  let shown = false;
  const openDeeds = (): boolean => { void deeds.open(); return true; };
  const extensions = [
    setup([{ key: 'Mod-.', run: openDeeds }, { key: 'Alt-Enter', run: openDeeds }], hint.id),
    underlines(app),
    hovers(app.engine, session),
    offers(app.engine, session),
    // Beside the editor, not in it: its box keeps to itself (editor.css).
    tooltips({ parent: root }),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) session.changed(update.changes, update.state.doc);
      if (update.docChanged || update.selectionSet) session.moved(update.state.selection.main.head);
    }),
  ];
  const fresh = (doc: Text): EditorState => EditorState.create({ doc, extensions });
  const view = new EditorView({ state: fresh(session.doc), parent: place });
  const deeds = createDeeds(root, view, app, session);
  session.attach(new EditorSurface(view, fresh));

  const tool = (text: string, title: string, run: () => void): HTMLButtonElement => {
    const button = makeButton(text, 'ed-tool', run);
    button.title = title;
    tools.append(button);
    return button;
  };
  tool('Undo', 'Ctrl+Z', () => { undo(view); view.focus(); });
  tool('Redo', 'Ctrl+Y', () => { redo(view); view.focus(); });
  tool('Find', 'Ctrl+F', () => { openSearchPanel(view); });
  tool('Tidy', 'Puts the lines in order; nothing that they say is changed', () => {
    void tidy(app, session).then(() => view.focus());
  });
  tool('At this place', 'What is known of the word at the cursor, and what can be done (Ctrl+.)',
       () => { void deeds.open(); });

  const label = make('label', 'ed-switch');
  const box = make('input');
  box.type = 'checkbox';
  label.append(box, 'Remarks');
  label.title = 'Behind each word, what is known of it';
  tools.append(label);
  box.addEventListener('change', () => {
    shown = box.checked;
    void renewRemarks(view, app.engine, session, shown);
  });

  // Remarks wait for a rest, so that pages are drawn first.
  let resting: ReturnType<typeof setTimeout> | undefined;
  session.addEventListener('messages', () => { showMessages(view, app); });
  session.addEventListener('answers', () => {
    clearTimeout(resting);
    if (shown) resting = setTimeout(() => void renewRemarks(view, app.engine, session, shown), kRest);
  });
};
