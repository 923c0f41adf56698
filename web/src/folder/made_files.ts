/** What a command made, taken out of the engine again: it belongs to nobody
 * until the teacher saves it. */
import type { App } from '../contract.js';
import type { RunResult } from '../engine/types.js';
import { button, el } from '../shell/dom.js';
import { shown } from './paths.js';

type Bytes = Uint8Array<ArrayBuffer>;
export interface Made { path: string; bytes: Bytes }

/** The files that a run wrote. Those that were there before are put back. */
export async function takeMade(app: App, run: RunResult): Promise<Made[]> {
  const made: Made[] = [];
  for (const path of run.written) {
    const bytes = await app.engine.readFile(path);
    if (bytes !== null) made.push({ path, bytes });
    const before = await app.folder.read(path);
    if (before !== null) await app.engine.putFile(path, before);
    else await app.engine.removeFile(path);
  }
  return made;
}

/** A PDF with what can be done with it. `name` is what it is saved as. */
export function pdfRow(app: App, label: string, name: string, bytes: Bytes, main = false): HTMLElement {
  const row = el('li', { class: 'folder-made' },
    el('span', { class: 'folder-made-name' }, label, el('span', { class: 'folder-detail' }, sizeWords(bytes.length))),
    button('Open to print', () => { app.openPdf(name, bytes); }, main ? 'main' : ''),
    button('Save', () => { app.download(name, bytes, 'application/pdf'); }));
  for (const one of row.querySelectorAll('button')) {
    one.append(el('span', { class: 'quiet' }, ` ${name}`));
  }
  if (app.folder.kind === 'opened') {
    const into = button('Save into the folder', () => { void saveInto(app, `/packets/${name}`, bytes); });
    into.append(el('span', { class: 'quiet' }, ` ${name}`));
    row.append(into);
  }
  return row;
}

/** Says where it went. PDFs are not read by Sheaf, so the list does not change. */
export async function saveInto(app: App, path: string, content: Bytes | string): Promise<void> {
  try {
    const how = await app.folder.write(path, content);
    app.say(how === 'written' ? `Saved in the folder: ${shown(path)}.` : `Saved as a download: ${shown(path)}.`, 'done');
  } catch (fault) {
    app.say(fault instanceof Error ? fault.message : 'It could not be saved.', 'fault');
  }
}

function sizeWords(bytes: number): string {
  return bytes < 1024 * 1024 ? `${Math.max(1, Math.round(bytes / 1024))} KB`
    : `${(bytes / 1024 / 1024).toFixed(1)} MB`;
}
