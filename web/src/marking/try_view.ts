/** "What they wrote", for the words of the open lesson, with no file at all. */
import type { App } from '../contract.js';
import { valueOf } from '../folder/kinds.js';
import { withOpenLesson } from '../folder/open_lesson.js';
import { baseName } from '../folder/paths.js';
import { button, el, inWords, later } from '../shell/dom.js';
import { attemptView, legend, spoken } from './attempt_view.js';
import { kCaution, scoreOf, scoreWords, type Attempt } from './attempts.js';
import { dictationIn } from './dictation.js';
import { PairMarker, tidy, type Marked } from './pairs.js';

interface Row {
  /** The word or sentence; what is typed where the teacher chooses it. */
  target: () => string;
  input: HTMLInputElement;
  out: HTMLElement;
  node: HTMLTableRowElement;
  shown: string;
}

const kAccents = ['general-american', 'british', 'scottish', 'australian'];

/** A field for what a learner wrote: no program mends the spelling in it. */
export function attemptField(label: string, className = ''): HTMLInputElement {
  return el('input', { type: 'text', 'aria-label': label, autocomplete: 'off', autocapitalize: 'off',
    autocorrect: 'off', spellcheck: 'false', class: `marking-field ${className}`.trim() });
}

export class TryView {
  readonly element = el('section', { class: 'marking-part', 'aria-label': 'What they wrote' });
  readonly #app: App;
  readonly #marker: PairMarker;
  readonly #body = el('tbody');
  readonly #head = el('p');
  readonly #score = el('p', { class: 'marking-score' });
  readonly #spoken = el('p', { class: 'quiet', role: 'status' });
  #rows: Row[] = [];
  #own: Row | null = null;
  #asked = 0;
  /** The lesson's text that the rows are made from. */
  #from: string | null = null;
  /** Whose words they are. */
  #path = '';
  readonly #later = later(250, () => { void this.#mark(); });

  constructor(app: App) {
    this.#app = app;
    this.#marker = new PairMarker(app.engine);
    const clear = button('Empty all fields', () => {
      for (const { input } of this.#all()) input.value = '';
      void this.#mark();
      this.#all()[0]?.input.focus();
    });
    this.element.append(
      el('h2', {}, 'What they wrote'), this.#head,
      el('table', { class: 'marking-table' },
        el('caption', { class: 'quiet' }, 'Words that were dictated, what a learner wrote, and how it is marked'),
        el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, 'Dictated'), el('th', { scope: 'col' }, 'What they wrote'),
          el('th', { scope: 'col' }, 'Marked'))),
        this.#body),
      this.#spoken, this.#score, el('p', { class: 'folder-row' }, clear),
      el('p', { class: 'marking-caution' }, kCaution),
      el('details', { class: 'folder-notes' }, el('summary', {}, 'What the signs mean'), legend(),
        el('p', { class: 'folder-hint' }, 'A full stop alone means that the word was left blank. Letter sequences count the pairs ',
          'of letters that stand side by side as they should, with the beginning and the end of the word.')));
    this.#showHead(false);
    this.#own = this.#ownRow();
    this.#body.append(this.#own.node);
  }

  #all(): Row[] { return this.#own === null ? this.#rows : [...this.#rows, this.#own]; }

  /** The rows follow the open lesson; what was typed for a word stays. */
  async look(): Promise<void> {
    const { path, text } = this.#app.session;
    if (path === '' || this.#from === `${path}\n${text}`) return;
    const from = `${path}\n${text}`;
    const dictation = await withOpenLesson(this.#app, () => dictationIn(this.#app.engine, path)).catch(() => null);
    if (`${this.#app.session.path}\n${this.#app.session.text}` !== from) return;
    this.#from = from;
    // Where its text has a mistake at the moment, the lesson's words from before stay.
    if (dictation === null && path === this.#path) return;
    this.#path = path;
    const targets = dictation === null ? [] : [...dictation.words, ...dictation.sentences];
    const before = new Map(this.#rows.map(row => [row.target(), row]));
    this.#rows = targets.map(target => before.get(target) ?? this.#row(target));
    const nodes = this.#rows.map(({ node }) => node);
    if (this.#own !== null) nodes.push(this.#own.node);
    // Putting a row where it already is would take the focus out of its field.
    if (nodes.length !== this.#body.children.length || nodes.some((node, i) => node !== this.#body.children[i])) {
      this.#body.replaceChildren(...nodes);
    }
    this.#showHead(targets.length > 0);
    void this.#mark();
  }

  #showHead(words: boolean): void {
    const name = baseName(this.#app.session.path);
    this.#head.textContent = words
      ? `The words that ${name} dictates. Type what a learner wrote, exactly as it stands on the paper; nothing is kept.`
      : name === ''
        ? 'Open a lesson, and its dictated words stand here; or type any word below, and what a learner wrote for it. Nothing is kept.'
        : `What ${name} dictates is not known: it has mistakes, or is no lesson. Any word can be typed below. Nothing is kept.`;
  }

  #row(target: string): Row {
    const input = attemptField(`What they wrote for ${target}`, target.includes(' ') ? 'marking-sentence' : '');
    const out = el('td', { class: 'marking-out' });
    const node = el('tr', {}, el('th', { scope: 'row' }, target), el('td', {}, input), out);
    const row: Row = { target: () => target, input, out, node, shown: '' };
    input.addEventListener('input', () => { this.#later(); });
    input.addEventListener('keydown', event => { this.#down(event, row); });
    return row;
  }

  #ownRow(): Row {
    const word = attemptField('Any other word or sentence');
    const input = attemptField('What they wrote for it');
    const out = el('td', { class: 'marking-out' });
    word.placeholder = 'any other word';
    const row: Row = { target: () => tidy(word.value), input, out, shown: '',
      node: el('tr', {}, el('td', {}, word), el('td', {}, input), out) };
    for (const field of [word, input]) field.addEventListener('input', () => { this.#later(); });
    return row;
  }

  /** Enter goes to the next word, as on a sheet of paper. */
  #down(event: KeyboardEvent, row: Row): void {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    const all = this.#all();
    all[all.indexOf(row) + 1]?.input.focus();
  }

  async #mark(): Promise<void> {
    const mine = ++this.#asked;
    const typed = this.#all().filter(row => tidy(row.input.value) !== '' && row.target() !== '');
    const pairs = typed.map(row => ({ target: row.target(), written: tidy(row.input.value) }));
    const accent = valueOf(this.#app.session.text, 'accent');
    let marked: Marked[];
    try {
      marked = await this.#marker.mark(pairs, kAccents.includes(accent) ? accent : '');
    } catch (fault) {
      marked = pairs.map(() => ({ fault: inWords(fault) }));
    }
    if (mine !== this.#asked) return;
    const scored: Attempt[] = [];
    const rows = new Map(typed.map((row, i) => [row, marked[i]]));
    for (const row of this.#all()) {
      const answer = rows.get(row);
      if (answer !== undefined && 'attempts' in answer) scored.push(...answer.attempts);
      this.#show(row, answer);
    }
    this.#score.textContent = scored.length > 0 ? scoreWords(scoreOf(scored)) : '';
  }

  #show(row: Row, answer: Marked | undefined): void {
    const key = answer === undefined ? '' : JSON.stringify(answer);
    if (key === row.shown) return;
    row.shown = key;
    row.out.replaceChildren();
    if (answer === undefined) return;
    if ('fault' in answer) {
      row.out.append(el('p', { class: 'folder-bad' }, answer.fault));
      return;
    }
    // Of a sentence only what is not right: the rest would fill the page.
    const many = answer.attempts.length > 1;
    const worth = many ? answer.attempts.filter(({ right }) => !right) : answer.attempts;
    if (many) row.out.append(el('p', { class: 'marking-what' }, scoreWords(scoreOf(answer.attempts))));
    for (const attempt of worth) {
      if (many) row.out.append(el('p', { class: 'marking-for' }, `${attempt.written || 'nothing'} for ${attempt.target}`));
      row.out.append(attemptView(attempt));
    }
    if (document.activeElement === row.input) this.#spoken.textContent = worth.map(spoken).join(' ');
  }
}
