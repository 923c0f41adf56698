/** A class: everybody's packets for one print job. */
import type { App } from '../contract.js';
import { button, count, el, inWords } from '../shell/dom.js';
import { likelyPaper, papers } from '../shell/paper.js';
import { rollOf, type Roll } from './class_codes.js';
import type { Listed } from './file_list.js';
import { fillSelect, labelled, whileBusy } from './form_parts.js';
import { pdfRow, takeMade, type Made } from './made_files.js';
import { withOpenLesson } from './open_lesson.js';
import { baseName, shown } from './paths.js';
import { spokenMessages } from './said.js';
import { saidList } from './said_list.js';

/** Inside the engine only; the folder of the teacher has no part in it. */
const kOut = '.made';

/** The codes that a choice stands for; none: everybody. */
export function codesFor(choice: string, roll: Roll): string[] {
  const [kind = '', ...rest] = choice.split(':');
  const name = rest.join(':');
  if (kind === 'learner') return [name];
  if (kind === 'group') return roll.learners.filter(({ group }) => group === name).map(({ code }) => code);
  return [];
}

/** Whom packets can be made for. */
export function choicesOf(roll: Roll): { value: string; label: string }[] {
  const choices = [{ value: 'all', label: roll.learners.length > 0
    ? `Everybody (${count(roll.learners.length, 'learner')})` : 'Everybody' }];
  const groups = new Set(roll.learners.map(({ group }) => group).filter(group => group !== ''));
  for (const group of groups) {
    const many = roll.learners.filter(one => one.group === group).length;
    choices.push({ value: `group:${group}`, label: `Group ${group} (${count(many, 'learner')})` });
  }
  for (const { code } of roll.learners) choices.push({ value: `learner:${code}`, label: code });
  return choices;
}

export class ClassView {
  readonly element: HTMLElement;
  readonly #app: App;
  readonly #class = el('select');
  readonly #whom = el('select');
  readonly #paper = el('select');
  readonly #result = el('div', { class: 'folder-result', role: 'region', 'aria-label': 'The packets', 'aria-live': 'polite' });
  #rolls = new Map<string, Roll>();

  constructor(app: App) {
    this.#app = app;
    const make = button('Make the packets', () => {
      void whileBusy(make, 'Making the packets…', () => this.#make());
    }, 'main');
    fillSelect(this.#paper, papers.map(({ paper, name }) => ({ value: paper, label: name })));
    this.#paper.value = likelyPaper(navigator.language);
    this.#class.addEventListener('change', () => { this.#showWhom(); });
    this.element = el('section', { class: 'folder-part', 'aria-label': 'Packets for a class' },
      el('h2', {}, 'Packets for a class'),
      el('p', {}, 'Every learner gets a packet of their own. All of them come as one PDF for the printer, each ',
        'on sheets of paper of its own; your pages come as another.'),
      el('div', { class: 'folder-row' }, labelled('Class', this.#class), labelled('For whom', this.#whom),
        labelled('Paper', this.#paper), make),
      this.#result);
  }

  show(files: readonly Listed[]): void {
    const classes = files.filter(({ kind }) => kind === 'class');
    this.element.hidden = classes.length === 0;
    this.#rolls = new Map(classes.map(({ path, text }) => [path, rollOf(text)]));
    fillSelect(this.#class, classes.map(({ path }) => {
      const title = this.#rolls.get(path)?.title ?? '';
      return { value: path, label: title === '' ? shown(path) : `${title} (${shown(path)})` };
    }));
    this.#showWhom();
  }

  #showWhom(): void {
    const roll = this.#rolls.get(this.#class.value);
    fillSelect(this.#whom, roll ? choicesOf(roll) : []);
  }

  async #make(): Promise<void> {
    const path = this.#class.value;
    const roll = this.#rolls.get(path);
    if (roll === undefined) return;
    const codes = codesFor(this.#whom.value, roll);
    this.#result.replaceChildren(el('p', {}, 'Making the packets…'));
    const args = ['build', '--class', shown(path), '--out', kOut,
      ...codes.flatMap(code => ['--learner', code]),
      ...this.#paper.value === '' ? [] : ['--paper', this.#paper.value]];
    try {
      await withOpenLesson(this.#app, async () => {
        const run = await this.#app.engine.run(args);
        const made = await takeMade(this.#app, run);
        const said = spokenMessages(run.err);
        this.#show(path, made, run.out, said.length === 0 && run.code !== 0 ? run.err : '');
        const worth = said.filter(({ severity }) => severity !== 'note');
        const notes = said.filter(({ severity }) => severity === 'note');
        if (worth.length > 0) this.#result.append(saidList(worth));
        if (notes.length > 0) {
          this.#result.append(el('details', { class: 'folder-notes' },
            el('summary', {}, count(notes.length, 'note')), saidList(notes)));
        }
      });
    } catch (fault) {
      this.#result.replaceChildren(el('p', { class: 'folder-bad' }, `The packets could not be made: ${inWords(fault)}`));
    }
  }

  #show(path: string, made: readonly Made[], out: string, err: string): void {
    const stem = baseName(path).replace(/\.[^.]*$/, '');
    const pdfs = made.filter(file => file.path.endsWith('.pdf'));
    const whole = pdfs.filter(file => ['packets.pdf', 'teacher.pdf'].includes(baseName(file.path)) &&
      file.path.split('/').length === 4);
    const rows = el('ul', { class: 'folder-made-list' });
    for (const file of whole) {
      const mine = baseName(file.path) === 'packets.pdf';
      rows.append(pdfRow(this.#app, mine ? 'All packets, for the printer' : 'Your pages',
        `${stem}-${baseName(file.path)}`, file.bytes, mine));
    }
    const single = pdfs.filter(file => !whole.includes(file));
    // The whole class is in one PDF; each learner's own is there for one page again.
    const each = el('ul', { class: 'folder-made-list' });
    for (const file of single) {
      const parts = file.path.split('/');
      const code = parts.at(-2) ?? '';
      const teacher = baseName(file.path) === 'teacher.pdf';
      each.append(pdfRow(this.#app, teacher ? `Your pages for ${code}` : `Packet of ${code}`,
        `${stem}-${code}-${baseName(file.path)}`, file.bytes, whole.length === 0 && !teacher));
    }
    const counts = /: (.*pages.*)$/m.exec(out)?.[1];
    this.#result.replaceChildren(
      pdfs.length > 0 ? el('p', { class: 'folder-good' }, `✓ Made: ${counts ?? count(pdfs.length, 'PDF')}.`)
        : el('p', { class: 'folder-bad' }, '✗ No packets were made.', err !== '' && ` ${err.split('\n')[0] ?? ''}`));
    if (whole.length > 0) this.#result.append(rows);
    if (single.length > 0) {
      this.#result.append(whole.length === 0 ? each
        : el('details', { class: 'folder-notes' }, el('summary', {}, 'One learner’s packet again'), each));
    }
  }
}
