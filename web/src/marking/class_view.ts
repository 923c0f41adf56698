/** A lesson's dictation of a whole class: errors only, marked as they are typed. */
import type { App } from '../contract.js';
import { rollOf } from '../folder/class_codes.js';
import type { Listed } from '../folder/file_list.js';
import { fillSelect, labelled, today, whileBusy } from '../folder/form_parts.js';
import { takeMade } from '../folder/made_files.js';
import { shown } from '../folder/paths.js';
import { spokenMessages } from '../folder/said.js';
import { saidList } from '../folder/said_list.js';
import { button, el, inWords, later } from '../shell/dom.js';
import { kCaution, scoreOf, scoreWords } from './attempts.js';
import { legend } from './attempt_view.js';
import { LearnerRow } from './learner_row.js';
import { markRecord, type RecordMarks } from './record_marks.js';
import { readForm, recordPlaces, recordText, type Form } from './record_text.js';

const kKinds = [
  { value: 'dictation', label: 'Dictation at the end of the week' },
  { value: 'transfer', label: 'New words with the pattern' },
  { value: 'retention', label: 'Weeks later' },
  { value: 'probe', label: 'A probe' },
];

interface Sheet {
  form: Form;
  path: string;
  draft: string;
  rows: LearnerRow[];
  /** What was typed when it was saved last. */
  saved: string;
  /** It was saved from here, so saving again replaces a file of its own. */
  mine: boolean;
}

export class ClassMarking {
  readonly element = el('section', { class: 'marking-part', 'aria-label': 'A class' });
  readonly #app: App;
  readonly #class = el('select');
  readonly #group = el('select');
  readonly #lesson = el('select');
  readonly #date = el('input', { type: 'date', value: today() });
  readonly #kind = el('select');
  readonly #fault = el('div', { role: 'alert' });
  readonly #none = el('p');
  readonly #form: HTMLElement;
  readonly #toFolder: HTMLButtonElement;
  readonly #place = el('div');
  readonly #summary = el('div', { class: 'marking-summary' });
  readonly #spoken = el('p', { class: 'quiet', role: 'status' });
  #files: readonly Listed[] = [];
  #sheet: Sheet | null = null;
  #asked = 0;
  readonly #later = later(350, () => { void this.#mark(); });

  constructor(app: App) {
    this.#app = app;
    fillSelect(this.#kind, kKinds);
    this.#class.addEventListener('change', () => { this.#showGroups(); });
    const begin = button('Begin', () => { void whileBusy(begin, 'Beginning…', () => this.#begin()); }, 'main');
    this.#form = el('div', { class: 'folder-row' }, labelled('Class', this.#class), labelled('Group', this.#group),
      labelled('Lesson', this.#lesson), labelled('Day of writing', this.#date), labelled('What it was', this.#kind), begin);
    this.#toFolder = button('Go to the folder', () => { app.show('folder'); });
    this.element.append(el('h2', {}, 'A class'), this.#none, this.#toFolder, this.#form, this.#fault, this.#place);
    window.addEventListener('beforeunload', event => { if (this.#unsaved) event.preventDefault(); });
  }

  get #unsaved(): boolean { return this.#sheet !== null && this.#typed(this.#sheet) !== this.#sheet.saved; }
  #typed(sheet: Sheet): string { return JSON.stringify(sheet.rows.map(row => row.entry)); }

  show(files: readonly Listed[]): void {
    this.#files = files;
    const classes = files.filter(({ kind }) => kind === 'class');
    const lessons = files.filter(({ kind }) => kind === 'lesson');
    const ready = classes.length > 0 && lessons.length > 0;
    this.#form.hidden = !ready;
    this.#none.textContent = ready
      ? 'Choose the lesson and the day. Then type only what is wrong; everything else counts as right.'
      : 'Open a folder with a class and its lessons; then a dictation of the whole class is marked here.';
    this.#toFolder.hidden = ready;
    fillSelect(this.#class, classes.map(({ path }) => ({ value: path, label: shown(path) })));
    const before = this.#lesson.value;
    fillSelect(this.#lesson, lessons.map(({ path }) => ({ value: path, label: shown(path) })));
    // The open lesson is the likeliest one, until another was chosen.
    const open = this.#app.session.path;
    if (before === '' && lessons.some(({ path }) => path === open)) this.#lesson.value = open;
    this.#showGroups();
  }

  #showGroups(): void {
    const text = this.#files.find(({ path }) => path === this.#class.value)?.text ?? '';
    fillSelect(this.#group, [{ value: '', label: 'Everybody whose lesson it is' },
      ...rollOf(text).groups.map(group => ({ value: group, label: group }))]);
  }

  async #begin(): Promise<void> {
    if (this.#unsaved && !await this.#app.confirm('What you typed for the other record is not saved. Go on without it?', 'Go on')) return;
    this.#fault.replaceChildren();
    const classPath = this.#class.value;
    const folder = recordPlaces(classPath, 'x').draft.replace(/\/x$/, '');
    const run = await this.#app.engine.run(['record', shown(this.#lesson.value), '--class', shown(classPath),
      '--date', this.#date.value, '--records', shown(folder),
      // Unless told otherwise, the command knows the form of a probe by itself.
      ...this.#kind.value === 'dictation' ? [] : ['--kind', this.#kind.value],
      ...this.#group.value === '' ? [] : ['--group', this.#group.value]]);
    const [made] = await takeMade(this.#app, run);
    const form = made === undefined ? null : readForm(new TextDecoder().decode(made.bytes));
    if (made === undefined || form === null) {
      const said = spokenMessages(run.err);
      this.#fault.append(said.length > 0 ? saidList(said) : el('p', { class: 'folder-bad' }, run.err.trim() || run.out.trim()));
      return;
    }
    const { path, draft } = recordPlaces(classPath, made.path);
    if (this.#app.folder.paths.includes(path)) {
      this.#fault.append(el('p', { class: 'folder-bad' },
        `There is a record of that lesson and day: ${shown(path)}. It stays as it is. Open it in the view Folder, or choose another day.`));
      return;
    }
    const rows = form.codes.map(code => new LearnerRow(code, this.#later));
    const sheet: Sheet = { form, path, draft, rows, saved: '', mine: false };
    sheet.saved = this.#typed(sheet);
    this.#sheet = sheet;
    this.#showSheet(sheet);
    void this.#mark();
    rows[0]?.focus();
  }

  #showSheet(sheet: Sheet): void {
    const save = button('Save the record', () => { void whileBusy(save, 'Saving…', () => this.#save(sheet)); }, 'main');
    sheet.rows.forEach((row, i) => { row.onEnter = () => { (sheet.rows[i + 1] ?? row).focus(); }; });
    this.#place.replaceChildren(
      el('h3', {}, shown(sheet.path).replace(/^.*\//, '').replace(/\.yaml$/, '')),
      el('div', { class: 'marking-dictated' }, el('p', {}, el('b', {}, 'Dictated')),
        ...sheet.form.dictated.map(line => el('p', {}, line))),
      el('p', { class: 'folder-hint' }, 'With commas between: rane, wate. Where it could be two words, write the word before it: ',
        el('code', {}, 'rain=rane'), '. ', el('code', {}, 'rain=.'), ' was left blank.'),
      el('table', { class: 'marking-table marking-class' },
        el('caption', { class: 'quiet' }, 'Learner by learner: what was wrong, and how it is marked'),
        el('thead', {}, el('tr', {}, ...['Learner', 'Away', 'What was wrong', 'Marked'].map(head => el('th', { scope: 'col' }, head)))),
        el('tbody', {}, ...sheet.rows.map(({ node }) => node))),
      this.#spoken, this.#summary, el('p', { class: 'folder-row' }, save),
      el('p', { class: 'marking-caution' }, kCaution),
      el('details', { class: 'folder-notes' }, el('summary', {}, 'What the signs mean'), legend()));
  }

  async #mark(): Promise<RecordMarks | null> {
    const sheet = this.#sheet;
    const mine = ++this.#asked;
    if (sheet === null) return null;
    let marks: RecordMarks;
    try {
      marks = await markRecord(this.#app.engine, sheet.form, sheet.rows.map(row => row.entry), sheet.draft);
    } catch (fault) {
      marks = { attempts: new Map(), questions: new Map(), faults: [inWords(fault)], advice: [] };
    }
    if (mine !== this.#asked || sheet !== this.#sheet) return null;
    for (const row of sheet.rows) row.show(marks);
    const focused = sheet.rows.find(row => row.hasFocus);
    if (focused !== undefined) this.#spoken.textContent = focused.spoken;
    const all = [...marks.attempts.values()].flat();
    this.#summary.replaceChildren();
    for (const fault of marks.faults) this.#summary.append(el('p', { class: 'folder-bad' }, fault));
    if (all.length > 0) {
      this.#summary.append(el('p', { class: 'marking-score' }, `All together: ${scoreWords(scoreOf(all))}`));
    }
    if (marks.advice.length > 0) {
      this.#summary.append(el('details', { class: 'folder-notes' }, el('summary', {}, 'What comes next for the group'),
        el('ul', {}, ...marks.advice.map(line => el('li', {}, line)))));
    }
    return marks;
  }

  async #save(sheet: Sheet): Promise<void> {
    this.#later.cancel();
    const marks = await this.#mark();
    if (marks === null) return;
    const asked = sheet.rows.find(row => marks.questions.has(row.code));
    if (marks.faults.length > 0 || asked !== undefined) {
      this.#app.say('Not saved yet: something is still to be answered first.', 'fault');
      asked?.focus();
      return;
    }
    const entries = sheet.rows.map(row => row.entry);
    if (entries.every(({ absent }) => absent)) {
      this.#app.say('Nobody was there, so there is nothing to save.', 'fault');
      return;
    }
    if (!sheet.mine && this.#app.folder.paths.includes(sheet.path)) {
      this.#app.say(`${shown(sheet.path)} is there by now, and stays as it is. Choose another day.`, 'fault');
      return;
    }
    const typed = this.#typed(sheet);
    try {
      const how = await this.#app.folder.write(sheet.path, recordText(sheet.form, entries).text);
      sheet.saved = typed;
      sheet.mine = true;
      this.#app.say(how === 'written' ? `Saved: ${shown(sheet.path)}.`
        : `Saved as a download. Put it into the folder records beside the class file.`, 'done');
    } catch (fault) {
      this.#app.say(`It could not be saved: ${inWords(fault)}`, 'fault');
    }
  }
}
