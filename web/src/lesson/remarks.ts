/** Short remarks behind words, where the teacher wants them: which letters
 * belong together, and what a lesson has not reached yet. */
import { StateEffect, StateField, type Extension, type Range } from '@codemirror/state';
import { Decoration, EditorView, WidgetType, type DecorationSet } from '@codemirror/view';
import type { Engine, Inlay } from '../engine/types.js';
import type { LessonSession } from './session.js';
import { make } from './words.js';

class Remark extends WidgetType {
  constructor(readonly text: string, readonly more: string) { super(); }
  override eq(other: Remark): boolean {
    return other.text === this.text && other.more === this.more;
  }
  toDOM(): HTMLElement {
    const node = make('span', 'ed-inlay', this.text);
    if (this.more !== '') node.title = this.more.replaceAll('`', '');
    return node;
  }
}

const setRemarks = StateEffect.define<DecorationSet>();
const remarksShown = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(value, transaction) {
    let now = value.map(transaction.changes);
    for (const effect of transaction.effects) if (effect.is(setRemarks)) now = effect.value;
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

export const remarks: Extension = remarksShown;

function decorations(inlays: readonly Inlay[], length: number): DecorationSet {
  const widgets: Range<Decoration>[] = [];
  for (const inlay of inlays) {
    if (inlay.at > length || inlay.text === '') continue;
    widgets.push(Decoration.widget({ widget: new Remark(inlay.text, inlay.more), side: 1 })
      .range(inlay.at));
  }
  return Decoration.set(widgets, true);
}

/** Asks for them anew, or takes them away. */
export async function renewRemarks(view: EditorView, engine: Engine, session: LessonSession,
                                   shown: boolean): Promise<void> {
  if (!shown) {
    if (view.state.field(remarksShown).size > 0) {
      view.dispatch({ effects: setRemarks.of(Decoration.none) });
    }
    return;
  }
  session.push();
  const version = session.version;
  const inlays = await engine.inlays(session.path, 0, session.doc.length).catch(() => null);
  // A later text asks for its own.
  if (!inlays || version !== session.version) return;
  view.dispatch({ effects: setRemarks.of(decorations(inlays, view.state.doc.length)) });
}
