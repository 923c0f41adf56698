/** What the editor is made of. */
import { closeCompletion, completionKeymap, startCompletion } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { closeSearchPanel, highlightSelectionMatches, searchKeymap } from '@codemirror/search';
import { EditorState, type Extension } from '@codemirror/state';
import { EditorView, highlightActiveLine, highlightActiveLineGutter, highlightSpecialChars,
         keymap, lineNumbers } from '@codemirror/view';
import { finder } from './find.js';
import { lessonHighlighting } from './language.js';
import { remarks } from './remarks.js';

export interface Deed { key: string; run: (view: EditorView) => boolean }

// Tab is not among the keys: it leaves the text, as it leaves any other field.
// Lines are moved in and out with Ctrl+] and Ctrl+[.
export function setup(deeds: readonly Deed[], describedBy: string): Extension {
  return [
    lineNumbers(),
    highlightSpecialChars(),
    highlightActiveLine(),
    highlightActiveLineGutter(),
    highlightSelectionMatches({ minSelectionLength: 3 }),
    history(),
    finder(),
    lessonHighlighting(),
    remarks,
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({
      'aria-label': 'Lesson text',
      'aria-describedby': describedBy,
      tabindex: '0',
      // Sheaf itself says which words it does not know; a phone must not mend
      // what is spelled on purpose.
      spellcheck: 'false',
      autocorrect: 'off',
      autocapitalize: 'off',
      translate: 'no',
    }),
    EditorState.tabSize.of(2),
    EditorState.phrases.of({
      Completions: 'What may stand here',
      'current match': 'found',
      'replaced $ matches': 'replaced at $ places',
      'replaced match on line $': 'replaced in line $',
    }),
    keymap.of([
      ...deeds.map((deed) => ({ ...deed, preventDefault: true })),
      { key: 'Ctrl-Space', run: startCompletion },
      { key: 'Escape', run: (view) => closeCompletion(view) || closeSearchPanel(view) },
      // Alt with letters types characters on some keyboards, and `Mod-Alt-g`
      // asks for a line by number in a way of its own: left out.
      ...searchKeymap.filter((one) => ['Mod-f', 'F3', 'Mod-g'].includes(one.key ?? '')),
      ...completionKeymap,
      ...historyKeymap,
      ...defaultKeymap,
    ]),
  ];
}
