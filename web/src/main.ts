/** Where the page begins. */
import { loadRest } from './engine/boot.js';
import { createEngine } from './engine/client.js';
import { createFolder } from './folder/folder.js';
import { createFolderView } from './folder/view.js';
import { createForm } from './form/form.js';
import { createEditor } from './lesson/editor.js';
import { createMessages } from './lesson/messages.js';
import { createPages } from './lesson/pages.js';
import { createSession } from './lesson/session.js';
import { createMarkingView } from './marking/view.js';
import { keepOffline, storeToFill, useNewest } from './offline.js';
import { createApp } from './shell/app.js';
import { el, inWords } from './shell/dom.js';
import { offerDownload } from './shell/files.js';
import { fillPage } from './shell/shell.js';
import { createStatus } from './shell/status.js';

async function begin(place: HTMLElement): Promise<void> {
  if (await useNewest()) return;
  const engine = createEngine();
  const folder = createFolder(engine, offerDownload);
  const status = createStatus();
  const app = createApp(engine, createSession(engine, folder), folder, status);
  fillPage(place, app, {
    editor: createEditor, form: createForm, pages: createPages, messages: createMessages,
    folder: createFolderView, marking: createMarkingView,
  });
  engine.info.catch((fault: unknown) => {
    app.say(`Sheaf could not begin its work in this browser: ${inWords(fault)}`, 'fault');
  });
  // What opens the page comes first.
  void engine.info.catch(() => undefined).then(() => loadRest(storeToFill())).then(keepOffline);
}

const place = document.getElementById('sheaf') ?? document.body;
begin(place).catch((fault: unknown) => {
  place.replaceChildren(el('p', { class: 'shell-wait', role: 'alert' },
    `Sheaf could not open in this browser: ${inWords(fault)} `,
    'It needs a browser of the last two or three years.'));
});
