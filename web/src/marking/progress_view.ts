/** How each learner is doing over the weeks, and the pages about it. */
import type { App } from '../contract.js';
import type { Listed } from '../folder/file_list.js';
import { fillSelect, labelled, whileBusy } from '../folder/form_parts.js';
import { pdfRow, takeMade } from '../folder/made_files.js';
import { folderOf, shown } from '../folder/paths.js';
import { spokenMessages } from '../folder/said.js';
import { saidList } from '../folder/said_list.js';
import { button, count, el, inWords } from '../shell/dom.js';
import { likelyPaper, papers } from '../shell/paper.js';
import { kCaution } from './attempts.js';
import { patternWords, progressOf, shareWords, stateSign, type LearnerProgress, type Progress } from './progress_data.js';

const kPages = [
  { value: 'teacher', label: 'For you' }, { value: 'home', label: 'For home, in plain words' },
  { value: 'meeting', label: 'For a meeting, with examples' },
];

/** No code has such a sign. */
const kAll = '*';

export class ProgressView {
  readonly element = el('section', { class: 'marking-part', 'aria-label': 'Progress' });
  readonly #app: App;
  readonly #records = el('select');
  readonly #learner = el('select');
  readonly #whom = el('select');
  readonly #paper = el('select');
  readonly #none = el('p');
  readonly #choice: HTMLElement;
  readonly #pages: HTMLElement;
  readonly #fault = el('div', { role: 'alert' });
  readonly #table = el('div');
  readonly #made = el('div', { 'aria-live': 'polite' });
  #progress: Progress | null = null;
  /** Of the page that is shown; freed when another comes. */
  #address = '';
  #asked = 0;

  constructor(app: App) {
    this.#app = app;
    fillSelect(this.#whom, kPages);
    fillSelect(this.#paper, papers.map(({ paper, name }) => ({ value: paper, label: name })));
    this.#paper.value = likelyPaper(navigator.language);
    this.#records.addEventListener('change', () => { void this.look(true); });
    this.#learner.addEventListener('change', () => { this.#showTables(); });
    const make = button('Make the pages', () => { void whileBusy(make, 'Making the pages…', () => this.#make()); });
    this.#choice = el('div', { class: 'folder-row' }, labelled('Records', this.#records), labelled('Learner', this.#learner));
    this.#pages = el('div', {}, el('h3', {}, 'Pages to print'),
      el('div', { class: 'folder-row' }, labelled('For whom', this.#whom), labelled('Paper', this.#paper), make), this.#made);
    this.element.append(el('h2', {}, 'Progress'), this.#none, this.#choice, this.#fault, this.#table, this.#pages);
  }

  show(files: readonly Listed[]): void {
    const many = new Map<string, number>();
    for (const { path } of files.filter(({ kind }) => kind === 'record')) {
      many.set(folderOf(path), (many.get(folderOf(path)) ?? 0) + 1);
    }
    // Probes may lie apart; the folder with most records is the term's.
    const folders = [...many.keys()].sort((a, b) => (many.get(b) ?? 0) - (many.get(a) ?? 0));
    const ready = folders.length > 0;
    this.#choice.hidden = this.#pages.hidden = !ready;
    this.#none.hidden = ready;
    this.#none.textContent = 'Where your folder has records, how each learner is doing over the weeks stands here.';
    if (!ready) this.#table.replaceChildren();
    fillSelect(this.#records, folders.map(folder => ({ value: folder, label: shown(folder) || 'this folder' })));
    this.#progress = null;
  }

  /** Asks again where something has changed since. */
  async look(again = false): Promise<void> {
    if (this.#choice.hidden || (this.#progress !== null && !again)) return;
    const mine = ++this.#asked;
    this.#fault.replaceChildren();
    try {
      const run = await this.#app.engine.run(['progress', shown(this.#records.value) || '.', '--json']);
      if (mine !== this.#asked) return;
      this.#progress = progressOf(run.out);
      const said = spokenMessages(run.err).filter(({ severity }) => severity === 'error');
      if (said.length > 0) this.#fault.append(saidList(said));
    } catch (fault) {
      this.#fault.append(el('p', { class: 'folder-bad' }, inWords(fault)));
    }
    const learners = this.#progress?.learners ?? [];
    fillSelect(this.#learner, [...learners.map(({ learner }) => ({ value: learner, label: learner })),
      ...learners.length > 1 ? [{ value: kAll, label: `All ${learners.length}` }] : []]);
    this.#showTables();
  }

  #showTables(): void {
    this.#table.replaceChildren();
    if (this.#progress === null) return;
    const chosen = this.#progress.learners.filter(({ learner }) => this.#learner.value === kAll || learner === this.#learner.value);
    for (const learner of chosen) this.#table.append(learnerTable(learner, this.#progress.asOf));
    this.#table.append(el('p', { class: 'marking-caution' }, kCaution));
  }

  async #make(): Promise<void> {
    const whom = this.#whom.value;
    const learner = this.#learner.value === kAll ? '' : this.#learner.value;
    this.#made.replaceChildren();
    try {
      const run = await this.#app.engine.run(['progress', shown(this.#records.value) || '.', '--pdf', `.made/progress-${whom}.pdf`,
        '--for', whom, ...learner === '' ? [] : ['--learner', learner],
        ...this.#paper.value === '' ? [] : ['--paper', this.#paper.value]]);
      const made = (await takeMade(this.#app, run)).find(({ path }) => path.endsWith('.pdf'));
      const said = spokenMessages(run.err).filter(({ severity }) => severity !== 'note');
      if (said.length > 0) this.#made.append(saidList(said));
      if (made === undefined) return;
      const name = `progress-${learner === '' ? '' : `${learner}-`}${whom}.pdf`;
      this.#made.append(el('ul', { class: 'folder-made-list' },
        pdfRow(this.#app, `Progress, ${kPages.find(({ value }) => value === whom)?.label.toLowerCase() ?? ''}`, name, made.bytes, true)),
      this.#frame(name, made.bytes), el('p', { class: 'marking-caution' }, kCaution));
    } catch (fault) {
      this.#made.replaceChildren(el('p', { class: 'folder-bad' }, `The pages could not be made: ${inWords(fault)}`));
    }
  }

  /** The browser's own viewer, only when it is opened: not every browser has one. */
  #frame(name: string, bytes: Uint8Array<ArrayBuffer>): HTMLElement {
    URL.revokeObjectURL(this.#address);
    const address = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
    this.#address = address;
    const more = el('details', { class: 'folder-notes' }, el('summary', {}, 'Look at them here'));
    more.addEventListener('toggle', () => {
      if (more.open && more.querySelector('iframe') === null) {
        more.append(el('iframe', { class: 'marking-frame', title: `The pages of ${name}`, src: address }));
      }
    });
    return more;
  }
}

function learnerTable({ learner, patterns, days }: LearnerProgress, asOf: string): HTMLElement {
  const body = el('tbody');
  for (const { pattern, state, taught, all, newWords, writing, why } of patterns) {
    const cell = (label: string, text: string) => el('td', { 'data-label': label }, text);
    body.append(el('tr', {}, el('th', { scope: 'row' }, patternWords(pattern)),
      el('td', { 'data-label': 'Where it stands', class: `marking-state marking-state-${state.replace(' ', '-')}` },
        el('span', { 'aria-hidden': 'true' }, `${stateSign(state)} `), state),
      el('td', { 'data-label': 'Taught', class: 'marking-day' }, taught), cell('Right since then', shareWords(all)), cell('In new words', shareWords(newWords)),
      cell('In own writing', shareWords(writing)), cell('What that rests on', why)));
  }
  const heads = ['Pattern', 'Where it stands', 'Taught', 'Right since then', 'In new words', 'In own writing', 'What that rests on'];
  const node = el('section', { class: 'marking-learner', 'aria-label': learner }, el('h3', {}, `${learner}, up to ${asOf}`));
  node.append(patterns.length === 0 ? el('p', {}, 'Nothing was taught yet that could be counted.')
    : el('table', { class: 'marking-table marking-progress' },
      el('caption', { class: 'quiet' }, `Where each pattern stands for ${learner}`),
      el('thead', {}, el('tr', {}, ...heads.map(head => el('th', { scope: 'col' }, head)))), body));
  if (days.length > 0) {
    node.append(el('details', { class: 'folder-notes' }, el('summary', {}, `Day by day (${count(days.length, 'day')})`),
      el('table', { class: 'marking-table marking-progress' },
        el('caption', { class: 'quiet' }, `Each day of ${learner}`),
        el('thead', {}, el('tr', {}, ...['Day', 'What it was', 'Words right', 'Letter sequences']
          .map(head => el('th', { scope: 'col' }, head)))),
        el('tbody', {}, ...days.map(day => el('tr', {}, el('th', { scope: 'row', class: 'marking-day' }, day.date),
          el('td', { 'data-label': 'What it was' }, day.kind), el('td', { 'data-label': 'Words right' }, shareWords(day.words)),
          el('td', { 'data-label': 'Letter sequences' }, `${day.sequences} of ${day.possible}`)))))));
  }
  return node;
}
