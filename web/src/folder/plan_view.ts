/** What comes next: each group's week, words to review, a lesson for a step. */
import type { App } from '../contract.js';
import { button, count, el, inWords } from '../shell/dom.js';
import { stepsIn } from '../shell/steps.js';
import type { Listed } from './file_list.js';
import { fillSelect, labelled, today, whileBusy } from './form_parts.js';
import { takeMade, type Made } from './made_files.js';
import { baseName, folderOf, shown } from './paths.js';
import { spokenMessages } from './said.js';
import { saidList } from './said_list.js';

/** The text of a plan without what is meant for a terminal: commands to type,
 * the lines that announce them, and the name of an option. */
export function forReading(out: string): string {
  const lines = out.split('\n');
  const command = (line: string | undefined) => line !== undefined && /^\s{2,}\S*sheaf\s/.test(line);
  return lines.filter((line, i) => !command(line) && !(/:\s*$/.test(line) && command(lines[i + 1])) &&
      !line.startsWith('Nothing is written.'))
    .join('\n').replace(/\n{3,}/g, '\n\n').replace(/^\n+|\s+$/g, '');
}

export class PlanView {
  readonly element: HTMLElement;
  readonly #app: App;
  readonly #class = el('select');
  readonly #week = el('input', { type: 'date', value: today() });
  readonly #sequence = el('select');
  readonly #step = el('select');
  readonly #result = el('div', { class: 'folder-result', role: 'region', 'aria-label': 'The plan', 'aria-live': 'polite' });
  readonly #plans: HTMLElement;
  readonly #drafts: HTMLElement;
  #sequences: readonly Listed[] = [];

  constructor(app: App) {
    this.#app = app;
    const week = button('What each group does next', () => {
      void whileBusy(week, 'Looking…', () => this.#nextWeek(false));
    });
    const review = button('What to review', () => { void whileBusy(review, 'Looking…', () => this.#review()); });
    const draft = button('Draft a lesson', () => { void whileBusy(draft, 'Drafting…', () => this.#draft()); });
    this.#sequence.addEventListener('change', () => { this.#showSteps(); });
    this.#plans = el('div', { class: 'folder-row' }, labelled('Class', this.#class),
      labelled('Week of', this.#week), week, review);
    this.#drafts = el('div', { class: 'folder-row' }, labelled('Sequence', this.#sequence),
      labelled('Step', this.#step), draft);
    this.element = el('section', { class: 'folder-part', 'aria-label': 'What comes next' },
      el('h2', {}, 'What comes next'), this.#plans, this.#drafts, this.#result);
  }

  show(files: readonly Listed[]): void {
    const classes = files.filter(({ kind }) => kind === 'class');
    this.#sequences = files.filter(({ kind }) => kind === 'sequence');
    const records = files.some(({ kind }) => kind === 'record');
    this.#plans.hidden = classes.length === 0 || !records;
    this.#drafts.hidden = this.#sequences.length === 0;
    this.element.hidden = this.#plans.hidden && this.#drafts.hidden;
    fillSelect(this.#class, classes.map(({ path }) => ({ value: path, label: shown(path) })));
    fillSelect(this.#sequence, this.#sequences.map(({ path }) => ({ value: path, label: shown(path) })));
    this.#showSteps();
  }

  #showSteps(): void {
    const sequence = this.#sequences.find(({ path }) => path === this.#sequence.value);
    fillSelect(this.#step, stepsIn(sequence?.text ?? '').map(({ number, label }) => ({ value: number, label })));
  }

  async #nextWeek(write: boolean): Promise<void> {
    const path = this.#class.value;
    const folder = shown(folderOf(path)) || '.';
    await this.#run(['week', folder, '--class', shown(path), ...write ? ['--yes'] : []], made => {
      if (write) return this.#save(made);
      const yes = button('Write these lessons into the class file', () => {
        void whileBusy(yes, 'Writing…', () => this.#nextWeek(true));
      });
      this.#result.append(el('p', {}, yes));
      return Promise.resolve();
    });
  }

  async #review(): Promise<void> {
    const path = this.#class.value;
    const records = shown(`${folderOf(path)}/records`);
    await this.#run(['review', '--class', shown(path), '--records', records, '--week', this.#week.value], made => {
      if (made.length === 0) return Promise.resolve();
      const names = made.map(file => baseName(file.path)).join(' and ');
      const save = button(`Save ${names}`, () => { void whileBusy(save, 'Saving…', () => this.#save(made)); });
      this.#result.append(el('p', {}, save,
        ' They then stand among your files: the class to make packets from, the check to print.'));
      return Promise.resolve();
    });
  }

  async #draft(): Promise<void> {
    // A lesson of that name may be there; the command never writes over one.
    for (let number = 1; number < 20; ++number) {
      const step = this.#step.value;
      const file = number === 1 ? [] : ['--file', `step-${step.replace(/[^A-Za-z0-9]+/g, '-')}-${number}.yaml`];
      const run = await this.#app.engine.run(
        ['draft', '--sequence', shown(this.#sequence.value), '--step', step, ...file]);
      if (run.code === 3) continue;
      const [made] = await takeMade(this.#app, run);
      if (run.code !== 0 || made === undefined) {
        this.#result.replaceChildren(saidList(spokenMessages(run.err)));
        return;
      }
      // Only editors on a machine need to know where its rules are.
      const text = new TextDecoder().decode(made.bytes).replace(/^# yaml-language-server:.*\n/m, '');
      if (await this.#app.openLesson(made.path, text)) this.#app.show('lesson');
      return;
    }
  }

  async #run(args: string[], then: (made: readonly Made[]) => Promise<void>): Promise<void> {
    try {
      const run = await this.#app.engine.run(args);
      const made = await takeMade(this.#app, run);
      this.#result.replaceChildren();
      const said = spokenMessages(run.err);
      if (said.length > 0) this.#result.append(saidList(said));
      const text = forReading(run.out);
      if (text !== '') {
        this.#result.append(el('pre', { class: 'folder-text', tabindex: '0', role: 'region', 'aria-label': 'The plan, as text' }, text));
      }
      if (run.code === 0) await then(made);
    } catch (fault) {
      this.#result.replaceChildren(el('p', { class: 'folder-bad' }, inWords(fault)));
    }
  }

  async #save(made: readonly Made[]): Promise<void> {
    let written = 0;
    for (const { path, bytes } of made) {
      if (await this.#app.folder.write(path, bytes) === 'written') ++written;
    }
    this.#app.say(written === made.length ? `${count(made.length, 'file')} saved in the folder.`
      : `${count(made.length, 'file')} saved; look among your downloads.`, 'done');
  }
}
