/** What may stand at the cursor, as a list to choose from. */
import { autocompletion, pickedCompletion, type Completion, type CompletionContext,
         type CompletionResult } from '@codemirror/autocomplete';
import { syntaxTree } from '@codemirror/language';
import type { Extension } from '@codemirror/state';
import type { EditorView } from '@codemirror/view';
import type { CompletionKind, Engine, Offer } from '../engine/types.js';
import type { LessonSession } from './session.js';
import { make } from './words.js';

const kHeadings: Record<CompletionKind, string> = {
  key: 'What a lesson can say', value: 'Choices', pattern: 'Patterns', word: 'Words',
  sheet: 'Pages', option: 'Options', file: 'Files', step: 'Steps',
};

/** Offers as CodeMirror wants them; `at` is where the cursor is. */
export function completionsOf(offers: readonly Offer[], at: number): CompletionResult | null {
  const first = offers[0];
  if (!first) return null;
  const from = Math.min(...offers.map((offer) => offer.range.from));
  const options = offers.map((offer, index): Completion => ({
    // A pattern is found by its name too: "long a" as well as "a_e".
    label: offer.kind === 'pattern' ? `${offer.label} ${offer.detail}` : offer.label,
    displayLabel: offer.label,
    detail: offer.detail,
    type: offer.kind,
    section: { name: kHeadings[offer.kind], rank: 0 },
    // In the order that the engine has chosen, where all else is equal.
    boost: -Math.min(99, index),
    ...(offer.more === '' ? {} : { info: () => make('div', 'ed-more', offer.more) }),
    apply: (view: EditorView, completion: Completion, start: number, end: number) => {
      const begin = start + (offer.range.from - from);
      const last = Math.max(end, end + offer.range.to - at);
      view.dispatch({
        changes: { from: begin, to: last, insert: offer.text },
        selection: { anchor: begin + offer.text.length },
        annotations: pickedCompletion.of(completion),
        userEvent: 'input.complete',
        scrollIntoView: true,
      });
    },
  }));
  // While a word goes on, the list is only sifted.
  return { from, options, validFor: /^[\w'-]*$/ };
}

export function offers(engine: Engine, session: LessonSession): Extension {
  const source = async (context: CompletionContext): Promise<CompletionResult | null> => {
    // Nobody is disturbed in the middle of a sentence, or where nothing was begun.
    if (!context.explicit) {
      if (!context.matchBefore(/[\w-]+$/)) return null;
      const kind = syntaxTree(context.state).resolveInner(context.pos, -1).name;
      if (kind === 'line' || kind === 'remark') return null;
    }
    session.push();
    const found = await engine.completions(session.path, context.pos).catch(() => []);
    return context.aborted ? null : completionsOf(found, context.pos);
  };
  return autocompletion({
    override: [source],
    icons: false,
    // Enter begins a new line unless an offer was chosen with the arrows.
    selectOnOpen: false,
    activateOnTypingDelay: 150,
    maxRenderedOptions: 60,
    optionClass: (completion) => `ed-offer ed-offer-${completion.type ?? 'value'}`,
  });
}
