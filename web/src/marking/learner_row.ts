/** One learner's line in the table of a class. */
import { button, el, quoted } from '../shell/dom.js';
import { attemptView, spoken } from './attempt_view.js';
import { scoreOf, scoreWords } from './attempts.js';
import type { RecordMarks } from './record_marks.js';
import { replaced, type Entry } from './record_text.js';
import { attemptField } from './try_view.js';

export class LearnerRow {
  readonly node: HTMLTableRowElement;
  readonly code: string;
  /** Enter was pressed in the field. */
  onEnter: () => void = () => undefined;
  readonly #away: HTMLInputElement;
  readonly #field: HTMLInputElement;
  readonly #out = el('td', { class: 'marking-out' });
  readonly #changed: () => void;
  #spoken = '';

  constructor(code: string, changed: () => void) {
    this.code = code;
    this.#changed = changed;
    this.#field = attemptField(`What ${code} wrote wrong`);
    this.#away = el('input', { type: 'checkbox', 'aria-label': `${code} was away` });
    this.#field.addEventListener('input', changed);
    this.#field.addEventListener('keydown', event => {
      if (event.key !== 'Enter') return;
      event.preventDefault();
      this.onEnter();
    });
    this.#away.addEventListener('change', () => {
      this.#field.disabled = this.#away.checked;
      changed();
    });
    this.node = el('tr', {}, el('th', { scope: 'row' }, code),
      el('td', { class: 'marking-away' }, el('label', {}, this.#away, el('span', { 'aria-hidden': 'true' }, 'away'))),
      el('td', {}, this.#field), this.#out);
  }

  get entry(): Entry { return { code: this.code, absent: this.#away.checked, wrong: this.#field.value }; }
  get hasFocus(): boolean { return document.activeElement === this.#field; }
  /** What a screen reader is told while the teacher types here. */
  get spoken(): string { return this.#spoken; }
  focus(): void { this.#field.focus(); }

  show(marks: RecordMarks): void {
    this.#out.replaceChildren();
    this.#spoken = '';
    if (this.#away.checked) {
      this.#out.append(el('p', { class: 'marking-what' }, 'Away: counts for nothing.'));
      return;
    }
    for (const { text, help, mends } of marks.questions.get(this.code) ?? []) {
      const node = el('div', { class: 'marking-question' }, el('p', { class: 'folder-bad' }, '? ', quoted(text)));
      this.#spoken += `${text.replaceAll('`', '')}. `;
      const row = el('p', { class: 'folder-row' });
      for (const { entry, by } of mends) {
        const target = by.split('=')[0] ?? by;
        row.append(button(`${entry} is for ${target}`, () => {
          this.#field.value = replaced(this.#field.value, entry, by);
          this.#field.focus();
          this.#changed();
        }));
      }
      node.append(mends.length > 0 ? row : el('p', { class: 'folder-hint' }, quoted(help)));
      this.#out.append(node);
    }
    const attempts = marks.attempts.get(this.code);
    if (attempts === undefined) return;
    const wrong = attempts.filter(({ right }) => !right);
    for (const attempt of wrong) {
      this.#out.append(el('p', { class: 'marking-for' }, `${attempt.written === '.' ? 'nothing' : attempt.written} for ${attempt.target}`),
        attemptView(attempt));
    }
    this.#spoken += wrong.map(spoken).join(' ');
    if (attempts.length > 0) {
      this.#out.prepend(el('p', { class: 'marking-what' }, wrong.length === 0 ? `✓ Everything right: ${scoreWords(scoreOf(attempts))}`
        : scoreWords(scoreOf(attempts))));
    }
  }
}
