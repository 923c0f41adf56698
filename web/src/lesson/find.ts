/** Looking for words in the text, and putting others in their place. */
import { SearchQuery, closeSearchPanel, findNext, findPrevious, getSearchQuery, replaceAll,
         replaceNext, search, setSearchQuery } from '@codemirror/search';
import type { Extension } from '@codemirror/state';
import { EditorView, type Panel, type ViewUpdate } from '@codemirror/view';
import { counted, make, makeButton, setText } from './words.js';

const kMostCounted = 1000;

function count(view: EditorView, query: SearchQuery): number {
  if (!query.valid) return 0;
  let found = 0;
  const cursor = query.getCursor(view.state);
  while (found < kMostCounted && !cursor.next().done) found += 1;
  return found;
}

class FindPanel implements Panel {
  readonly top = true;
  readonly dom = make('div', 'ed-find');
  readonly #find = make('input', 'ed-find-field');
  readonly #replace = make('input', 'ed-find-field');
  readonly #found = make('span', 'ed-find-count');
  readonly #view: EditorView;

  constructor(view: EditorView) {
    this.#view = view;
    const query = getSearchQuery(view.state);
    this.#find.value = query.search;
    this.#find.setAttribute('main-field', 'true');
    this.#replace.value = query.replace;
    for (const [field, name] of [[this.#find, 'Find'], [this.#replace, 'Put in its place']] as const) {
      field.type = 'text';
      field.autocomplete = 'off';
      field.spellcheck = false;
      field.addEventListener('input', () => this.#commit());
      const label = make('label', 'ed-find-label');
      label.append(make('span', '', name), field);
      this.dom.append(label);
    }
    this.#found.setAttribute('role', 'status');
    const add = (text: string, run: (view: EditorView) => boolean): void => {
      this.dom.append(makeButton(text, 'ed-tool', () => { run(view); }));
    };
    add('Next', findNext);
    add('Previous', findPrevious);
    add('Replace', replaceNext);
    add('Replace all', replaceAll);
    add('Close', (at) => { closeSearchPanel(at); at.focus(); return true; });
    this.dom.append(this.#found);
    this.dom.setAttribute('role', 'search');
    this.dom.setAttribute('aria-label', 'Find in the lesson');
    this.dom.addEventListener('keydown', (event) => this.#key(event));
  }

  mount(): void {
    this.#find.select();
    this.#say();
  }

  update(update: ViewUpdate): void {
    for (const transaction of update.transactions) {
      for (const effect of transaction.effects) {
        if (!effect.is(setSearchQuery)) continue;
        if (effect.value.search !== this.#find.value) this.#find.value = effect.value.search;
        if (effect.value.replace !== this.#replace.value) this.#replace.value = effect.value.replace;
      }
    }
    if (update.docChanged) this.#say();
  }

  #query(): SearchQuery {
    return new SearchQuery({ search: this.#find.value, replace: this.#replace.value, literal: true });
  }

  #commit(): void {
    this.#view.dispatch({ effects: setSearchQuery.of(this.#query()) });
    this.#say();
  }

  #say(): void {
    const found = count(this.#view, this.#query());
    const text = this.#find.value === '' ? ''
      : found === 0 ? 'not found' : counted(found, 'place', 'places');
    setText(this.#found, text);
  }

  #key(event: KeyboardEvent): void {
    if (event.key === 'Escape') {
      event.preventDefault();
      closeSearchPanel(this.#view);
      this.#view.focus();
    } else if (event.key === 'Enter' && event.target instanceof HTMLInputElement) {
      event.preventDefault();
      if (event.target === this.#replace) replaceNext(this.#view);
      else if (event.shiftKey) findPrevious(this.#view);
      else findNext(this.#view);
    }
  }
}

export function finder(): Extension {
  return search({ top: true, createPanel: (view) => new FindPanel(view) });
}
