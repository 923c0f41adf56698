/** Which Sheaf this is, what it does with what is written, and what it is made of. */
import type { App } from '../contract.js';
import { buildVersion, licenceText } from '../engine/boot.js';
import { openBox } from './dialogs.js';
import { button, el } from './dom.js';

/** Read once: the one file gives each of its parts away. */
let reading: Promise<string> | null = null;
const elsewhere = 'The notices are in the file LICENSES.md that comes with Sheaf.';

export function aboutBox(app: App): void {
  const version = el('p', {}, 'Sheaf');
  const notices = el('pre', { class: 'shell-notices', tabindex: '0', role: 'group', 'aria-label': 'Licences' }, 'One moment…');
  const more = el('details', {}, el('summary', {}, 'Licences of its parts, fonts and word list'), notices);
  const box = openBox('About Sheaf', version,
    el('p', {}, 'All is done on this device. The page asks nothing of any other computer once it is open, ',
      'and keeps nothing unless you choose so under Folder.'),
    el('p', {}, 'Marks and scores describe the words that were dictated. They diagnose nothing.'),
    more, el('p', { class: 'shell-box-buttons' }, button('Close', () => box.close(), 'main')));
  box.body.querySelector<HTMLElement>('.shell-box-buttons button')?.focus();
  void app.engine.info.then((info) => {
    version.textContent = `${/sheaf/i.test(info.version) ? '' : 'Sheaf '}${info.version}, build ${buildVersion()}`;
  }, () => undefined);
  more.addEventListener('toggle', () => {
    reading ??= licenceText().catch(() => '');
    void reading.then((text) => { notices.textContent = text || elsewhere; });
  }, { once: true });
}
