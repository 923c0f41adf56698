/** "Keep on this device": asked for by the teacher, locked with a passphrase,
 * gone in one click. */
import type { App } from '../contract.js';
import { DeviceFolder } from '../folder/folder.js';
import { labelled, whileBusy } from '../folder/form_parts.js';
import { button, count, el, inWords, later } from '../shell/dom.js';
import type { Paper } from '../shell/paper.js';
import type { Kept } from './bundle.js';
import { Keeper } from './keeper.js';

/** As NIST SP 800-63B-4 asks of a password that is used alone (from memory): 15 signs.
 * A few plain words are that long and easy to remember. */
export const kShortest = 15;

/** Why a passphrase will not do, in words; '' where it will. */
export function passphraseFault(first: string, second: string): string {
  if ([...first].length < kShortest) return `Use at least ${kShortest} signs: four or five plain words will do.`;
  return first === second ? '' : 'The two are not the same. Type it again.';
}

/** The shell's own app also knows the paper. */
interface WithPaper { paper: { value: Paper; chosen: boolean }; usePaper(paper: Paper, chosen: boolean): Promise<void> }
function withPaper(app: App): WithPaper | null {
  return 'usePaper' in app ? app as App & WithPaper : null;
}

/** Fills `parent` and lives as long as the page. */
export function createKeepView(parent: HTMLElement, app: App, folder: DeviceFolder): void {
  const keeper = new Keeper(indexedDB);
  const body = el('div');
  const state = el('p', { class: 'folder-hint', role: 'status' });
  parent.append(body, state);

  const collect = async (): Promise<Kept> => {
    const paper = withPaper(app)?.paper;
    const { path, text } = app.session;
    return {
      folderName: folder.name, files: await folder.contents(),
      lesson: path === '' ? null : { path, text },
      settings: paper?.chosen === true ? { paper: paper.value } : {},
    };
  };
  const keepNow = async (): Promise<boolean> => {
    try {
      const kept = await collect();
      // It may have been removed in the meantime.
      if (!keeper.unlocked) return false;
      await keeper.keep(kept);
      if (!keeper.unlocked) return false;
      const now = new Date().toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
      state.textContent = `✓ Kept at ${now}, locked with your passphrase.`;
      return true;
    } catch (fault) {
      state.textContent = `✗ ${inWords(fault)}`;
      app.say(inWords(fault), 'fault');
      return false;
    }
  };
  // The teacher has said once that this is to be kept; then every change is.
  const renew = later(4000, () => { if (keeper.unlocked) void keepNow(); });
  const changed = () => {
    if (!keeper.unlocked) return;
    state.textContent = 'Changes are being kept…';
    renew();
  };
  app.session.addEventListener('text', changed);
  folder.addEventListener('change', changed);

  const remove = () => {
    const node = button('Remove everything kept here', () => {
      void whileBusy(node, 'Removing…', async () => {
        renew.cancel();
        try {
          await keeper.remove();
          state.textContent = '';
          app.say('Nothing is kept in this browser any more. Your own files are as they were.', 'done');
          showOffer();
        } catch (fault) {
          app.say(inWords(fault), 'fault');
        }
      });
    });
    return node;
  };

  const field = (autocomplete: string) => el('input', {
    type: 'password', autocomplete, spellcheck: 'false', autocapitalize: 'off', class: 'folder-wide' });

  const showOffer = () => {
    const first = field('new-password');
    const second = field('new-password');
    const fault = el('p', { class: 'folder-bad', role: 'alert' });
    const form = el('form', { class: 'folder-row' }, labelled('Passphrase', first,
      `At least ${kShortest} signs, as in four or five plain words. Without it nobody can open this again, not even you.`),
    labelled('The same again', second));
    const keep = el('button', { type: 'submit', class: 'button' }, 'Keep on this device');
    form.append(keep);
    form.addEventListener('submit', event => {
      event.preventDefault();
      fault.textContent = passphraseFault(first.value, second.value);
      if (fault.textContent !== '') { first.focus(); return; }
      void whileBusy(keep, 'Keeping…', async () => {
        await keeper.begin(first.value);
        first.value = second.value = '';
        if (await keepNow()) {
          // Asked so that the browser does not clear it when the disk is short.
          void navigator.storage?.persist?.();
          showKept();
        } else {
          keeper.forget();
        }
      });
    });
    body.replaceChildren(
      el('p', {}, 'Nothing is stored unless you say so here. Then your files, the open lesson and your paper are ',
        'kept in this browser, on this device only, locked with a passphrase. Do not use it on a device that others use.'),
      el('details', { class: 'folder-notes' }, el('summary', {}, 'Keep this for my next visit'), form, fault));
  };

  const showKept = () => {
    const now = button('Keep it as it is now', () => { void whileBusy(now, 'Keeping…', async () => { await keepNow(); }); });
    body.replaceChildren(
      el('p', {}, 'Your files, the open lesson and your paper are kept in this browser, locked with your passphrase. ',
        'While this page is open, changes are kept by themselves.'),
      el('div', { class: 'folder-row' }, now, remove()));
  };

  const showLocked = () => {
    const phrase = field('current-password');
    const fault = el('p', { class: 'folder-bad', role: 'alert' });
    const open = el('button', { type: 'submit', class: 'button main' }, 'Unlock');
    const form = el('form', { class: 'folder-row' }, labelled('Passphrase', phrase), open, remove());
    form.addEventListener('submit', event => {
      event.preventDefault();
      fault.textContent = '';
      void whileBusy(open, 'Unlocking…', async () => {
        try {
          const kept = await keeper.unlock(phrase.value);
          phrase.value = '';
          showKept();
          await restore(app, folder, kept);
        } catch (why) {
          fault.textContent = inWords(why);
          phrase.select();
        }
      });
    });
    body.replaceChildren(
      el('p', {}, 'Something of yours is kept in this browser, locked. Your passphrase opens it.'), form, fault);
  };

  showOffer();
  void keeper.holds().then(holds => {
    if (!holds) return;
    showLocked();
    app.say('What you kept here is locked. Unlock it in the view Folder.');
  });
}

async function restore(app: App, folder: DeviceFolder, kept: Kept): Promise<void> {
  // A folder that is open is nearer to the truth than what was kept of one.
  if (folder.kind === 'none' && kept.files.length > 0) await folder.restore(kept.folderName, kept.files);
  const paper = kept.settings.paper;
  if (paper === 'a4' || paper === 'letter' || paper === '') await withPaper(app)?.usePaper(paper, true);
  app.say(`Unlocked: ${count(kept.files.length, 'file')} and ${kept.lesson === null ? 'no open lesson' : 'the lesson that was open'}.`, 'done');
  if (kept.lesson === null) return;
  const { path, text } = kept.lesson;
  const bytes = await folder.read(path);
  const saved = bytes === null ? text : new TextDecoder().decode(bytes);
  if (!await app.openLesson(path, saved)) return;
  // What was written and not saved is a change again, and can be undone.
  const now = app.session.text;
  if (text !== saved && text !== now) app.session.apply([{ from: 0, to: now.length, insert: text }]);
}
