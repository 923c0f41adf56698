/** The view of the teacher's folder: its files, a class to print for, what comes
 * next, and whether it is kept. */
import type { App, Part } from '../contract.js';
import { button, count, el, inWords } from '../shell/dom.js';
import { createKeepView } from '../store/keep_view.js';
import { canOpenFolders } from './device.js';
import { Checks } from './checks.js';
import { ClassView } from './class_view.js';
import { FileList, listed } from './file_list.js';
import { DeviceFolder, type Outside } from './folder.js';
import { newClassForm } from './new_class.js';
import { shown } from './paths.js';
import { PlanView } from './plan_view.js';

export const createFolderView: Part = (parent, app) => {
  const folder = app.folder;
  if (!(folder instanceof DeviceFolder)) {
    parent.append(el('p', {}, 'No folder can be opened here.'));
    return;
  }
  const checks = new Checks(app.engine);
  const files = new FileList(app, checks);
  const classes = new ClassView(app);
  const plans = new PlanView(app);
  const head = el('div', { class: 'folder-head' });
  const notes = el('div', { class: 'folder-left-out' });
  const newClass = newClassForm(app);
  const keep = el('section', { class: 'folder-part', 'aria-label': 'Keep on this device' },
    el('h2', {}, 'Keep on this device'));
  createKeepView(keep, app, folder);
  const list = el('section', { class: 'folder-part folder-all', 'aria-label': 'Files' },
    el('h2', {}, 'Files'), files.element, notes);
  const beside = el('div', { class: 'folder-beside' }, classes.element, newClass.element, plans.element, keep);
  const top = el('section', { class: 'folder-part folder-top' }, el('h1', {}, 'Folder and class'), head);
  parent.append(el('div', { class: 'folder-view' }, top, list, beside));

  let seen = false;
  const check = () => {
    // Looking through a year of lessons is for when somebody looks at the list,
    // and must not keep another view waiting.
    if (seen) void checks.run();
    else checks.stop();
  };
  let number = 0;
  const show = async () => {
    const mine = ++number;
    showHead(head, app, folder);
    const known = await listed(app);
    if (mine !== number) return;
    list.hidden = known.length === 0;
    files.show(known);
    classes.show(known);
    newClass.show(known);
    plans.show(known);
    const left = folder.leftOut.sentences();
    notes.replaceChildren();
    if (left.length > 0) {
      notes.append(el('p', {}, 'Left out:'), el('ul', {}, ...left.map(text => el('li', {}, text))));
    }
    checks.take(known);
    check();
  };
  new IntersectionObserver(entries => {
    seen = entries.some(entry => entry.isIntersecting);
    check();
  }).observe(top);
  folder.addEventListener('change', event => {
    void show();
    // The open lesson may use a sequence, a layout or a picture from here.
    const { path } = app.session;
    const others = (event as CustomEvent<string[]>).detail.some(other => other !== path);
    if (path !== '' && others) app.session.lookAgain();
  });
  folder.addEventListener('outside', event => {
    void tellOutside(app, (event as CustomEvent<Outside>).detail);
  });
  takeDrops(parent, app, folder);
  void show();
};

/** Where nothing is open yet this is an invitation, else what is open. */
function showHead(head: HTMLElement, app: App, folder: DeviceFolder): void {
  const attempt = (work: () => Promise<unknown>) => () => {
    void work().catch((fault: unknown) => { app.say(`That could not be opened: ${inWords(fault)}`, 'fault'); });
  };
  const open = attempt(() => folder.openFolder());
  const choose = attempt(() => folder.chooseFiles());
  const had = head.contains(document.activeElement);
  if (folder.kind === 'none') {
    head.replaceChildren(
      el('p', {}, 'Open the folder with your lessons, your class and your records. Everything stays on this device: ',
        'nothing is sent anywhere', canOpenFolders() ? ', and nothing is written until you save.' : '.'),
      el('div', { class: 'folder-row' }, button('Open a folder', open, 'main'), button('Choose files', choose)),
      el('p', { class: 'folder-hint folder-drop' }, 'You can also drop a folder or files here. Sheaf reads .yaml, .txt, .png and .jpg.',
        !canOpenFolders() && ' Your browser may ask whether to “upload” the files: they only come into this page, on this device.'));
  } else {
    const again = button('Look again', attempt(async () => {
      const { changed, added, gone } = await folder.lookAgain();
      if (changed.length + added.length + gone.length === 0) app.say('The folder is as it was.', 'done');
    }));
    head.replaceChildren(
      el('p', {}, el('b', {}, folder.name === '' ? 'Your files' : folder.name), `: ${count(folder.paths.length, 'file')}. `,
        folder.kind === 'opened' ? 'What you save is written into this folder.'
          : 'These are copies: what you save comes as a download.'),
      el('div', { class: 'folder-row' }, folder.kind === 'opened' && again,
        button('Open another folder', open), button('Add files', choose),
        button('Close', () => { void folder.close(); })));
  }
  // Whoever pressed a button that is gone is not left nowhere.
  if (had) head.querySelector('button')?.focus();
}

function takeDrops(parent: HTMLElement, app: App, folder: DeviceFolder): void {
  const files = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;
  parent.addEventListener('dragover', event => {
    if (!files(event)) return;
    event.preventDefault();
    parent.classList.add('folder-over');
  });
  parent.addEventListener('dragleave', event => {
    if (!(event.relatedTarget instanceof Node && parent.contains(event.relatedTarget))) parent.classList.remove('folder-over');
  });
  parent.addEventListener('drop', event => {
    parent.classList.remove('folder-over');
    if (!files(event) || event.dataTransfer === null) return;
    event.preventDefault();
    event.stopPropagation();
    folder.drop(event.dataTransfer).catch((fault: unknown) => {
      app.say(`That could not be opened: ${inWords(fault)}`, 'fault');
    });
  });
}

/** Another program has changed files. The open lesson is changed only where
 * nothing of the teacher's would be lost. */
async function tellOutside(app: App, outside: Outside): Promise<void> {
  const { path } = app.session;
  const all = [...outside.changed, ...outside.added, ...outside.gone];
  if (outside.changed.includes(path)) {
    const bytes = await app.folder.read(path);
    const text = bytes === null ? '' : new TextDecoder().decode(bytes);
    if (bytes !== null && text !== app.session.text && await app.confirm(
      `Another program has changed ${shown(path)}. Open it as it is now? What you have not saved here would be lost.`,
      'Open it as it is now')) {
      app.session.open(path, text);
    }
    return;
  }
  app.say(all.length === 1 ? `${shown(all[0] ?? '')} was changed by another program, and is read again.`
    : `${count(all.length, 'file')} were changed by another program, and are read again.`);
}
