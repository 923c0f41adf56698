/** Keys that work everywhere in the page, and files dropped on it. */
import type { Shell } from './app.js';
import { anyBoxOpen } from './dialogs.js';
import { inWords } from './dom.js';
import { droppedFile } from './files.js';
import { printPages } from './packets.js';

export function listenToKeys(app: Shell, open: () => void): void {
  document.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey || anyBoxOpen()) return;
    const key = event.key.toLowerCase();
    const act = key === 'o' ? open
      : key === 's' && app.file.open ? () => { void app.save(); }
      : key === 'p' && app.file.open ? () => { void printPages(app); } : null;
    if (!act) return;
    event.preventDefault();
    act();
  });
}

/** A lesson dropped anywhere on the lesson view is opened. Other views take what
 * is dropped on them by themselves. */
export function listenToDrops(app: Shell, place: HTMLElement): void {
  const hasFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;
  // Outside of what takes files, a drop would replace the page by the file.
  window.addEventListener('dragover', (event) => {
    if (hasFiles(event) && !event.defaultPrevented) {
      event.preventDefault();
      if (event.dataTransfer) event.dataTransfer.dropEffect = place.hidden ? 'none' : 'copy';
    }
  });
  window.addEventListener('drop', (event) => {
    if (!hasFiles(event) || event.defaultPrevented) return;
    event.preventDefault();
    if (place.hidden || !event.dataTransfer) return;
    const dropped = droppedFile(event.dataTransfer);
    if (!dropped) {
      app.say('Folders are opened in the view Folder.', 'fault');
      return;
    }
    void (async () => {
      const picked = await dropped;
      if (await app.mayLeave()) app.file.take(picked);
    })().catch((fault: unknown) => { app.say(inWords(fault), 'fault'); });
  });
}
