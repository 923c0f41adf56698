/** What every part of the page is given. */
import type { App, Folder, Session, View } from '../contract.js';
import type { Engine } from '../engine/types.js';
import { finishForm, formHasNewer } from '../form/form.js';
import { ask, confirmBox, openBox } from './dialogs.js';
import { count, el, inWords } from './dom.js';
import { offerDownload } from './files.js';
import { LessonFile } from './lesson_file.js';
import { likelyPaper, type Paper } from './paper.js';
import type { Status } from './status.js';

/** The shell's own parts know a little more. */
export interface Shell extends App {
  readonly file: LessonFile;
  readonly status: Status;
  /** What the teacher's printer has. */
  readonly paper: { value: Paper; chosen: boolean };
  usePaper(paper: Paper, chosen: boolean): Promise<void>;
  onPaper(call: () => void): void;
  /** True where there is nothing to lose, or the teacher agrees, or it is saved. */
  mayLeave(): Promise<boolean>;
  /** Saves and says so; false where it did not come to that. */
  save(): Promise<boolean>;
  onShow(call: (view: View) => void): void;
}

/** A PDF in a tab of its own, where the browser's own button prints it. A frame
 * in the page cannot be printed from where the page is a file. */
function openInTab(name: string, bytes: Uint8Array<ArrayBuffer>, app: App): void {
  const address = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
  if (window.open(address, '_blank')) return;
  // The browser lets only a press open a tab: so there is one.
  const link = el('a', { href: address, target: '_blank', class: 'button main' }, `Open ${name}`);
  const box = openBox('The pages are ready', el('p', {}, 'Your browser opens them only when you press here.'),
    el('p', { class: 'shell-box-buttons' }, link));
  link.addEventListener('click', () => setTimeout(() => box.close(), 0));
  link.focus();
  app.say(`${name} is ready.`);
}

export function createApp(engine: Engine, session: Session, folder: Folder, status: Status): Shell {
  const file = new LessonFile(session, folder);
  const showing: ((view: View) => void)[] = [];
  const papering: (() => void)[] = [];
  const paper = { value: '' as Paper, chosen: false };

  const app: Shell = {
    engine, session, folder, file, status, paper,
    say: (text, kind) => status.say(text, kind),
    download(name, content, type) {
      offerDownload(name, content, type);
    },
    openPdf(name, bytes) {
      openInTab(name, bytes, app);
    },
    show(view) {
      for (const call of showing) call(view);
    },
    onShow(call) {
      showing.push(call);
    },
    onPaper(call) {
      papering.push(call);
    },
    confirm: confirmBox,
    async openLesson(path, text) {
      if (!await app.mayLeave()) return false;
      const bytes = folder.paths.includes(path) ? await folder.read(path) : null;
      file.fromFolder(path, text, bytes && new TextDecoder().decode(bytes));
      app.show('lesson');
      return true;
    },
    async usePaper(value, chosen) {
      paper.value = value;
      paper.chosen ||= chosen;
      for (const call of papering) call();
      await engine.setPaper(value);
      if (file.open) session.lookAgain();
    },
    async mayLeave() {
      await finishForm();
      if (!file.unsaved) return true;
      const answer = await ask(`${file.name} is not saved`, 'What you wrote there would be lost.', [
        { value: 'save', label: 'Save it first', main: true },
        { value: 'lose', label: 'Go on without it' },
        { value: '', label: 'Stay here' },
      ]);
      if (answer === 'save') return app.save();
      return answer === 'lose';
    },
    async save() {
      try {
        await finishForm();
        const name = file.name;
        const saved = await file.save();
        if (saved === 'stopped') return false;
        app.say(saved === 'saved' ? `${name} is saved.` : `${name} is with your downloads.`, 'done');
        return true;
      } catch (fault) {
        app.say(`It could not be saved: ${inWords(fault)}`, 'fault');
        return false;
      }
    },
  };

  file.onReplaced = (path, text) => {
    status.offer(`${path.slice(1)} was open and not saved.`, 'Go back to it', () => file.restore(path, text));
  };
  window.addEventListener('beforeunload', (event) => {
    if (file.unsaved || formHasNewer()) event.preventDefault();
  });
  void app.usePaper(likelyPaper(navigator.language), false).catch(() => undefined);
  return app;
}

/** How many errors stand in the way, in words. */
export function errorsInWords(errors: number): string {
  return errors === 1 ? 'One mistake is to be mended first' : `${count(errors, 'mistake')} are to be mended first`;
}
