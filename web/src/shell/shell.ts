/** The page as a whole: the bar on top, the views, the line at the foot. */
import type { Part } from '../contract.js';
import type { Shell } from './app.js';
import { el, inWords } from './dom.js';
import { pickFile } from './files.js';
import { createGuide } from './guide.js';
import { listenToDrops, listenToKeys } from './keys.js';
import { createLessonView, type Parts } from './lesson_view.js';
import { createViews } from './views.js';

export interface AllParts extends Parts { folder: Part; marking: Part }

export function fillPage(place: HTMLElement, app: Shell, parts: AllParts): void {
  const open = () => {
    void (async () => {
      // The choice comes first: a browser lets only a press open it.
      const picked = await pickFile();
      if (!picked || !await app.mayLeave()) return;
      app.file.take(picked);
      app.show('lesson');
      app.say(`${picked.name} is open.`, 'done');
    })().catch((fault: unknown) => { app.say(inWords(fault), 'fault'); });
  };
  const views = createViews(app);
  const skip = el('a', { href: '#shell-main', class: 'shell-skip' }, 'To the main part');
  skip.addEventListener('click', (event) => { event.preventDefault(); views.main.focus(); });
  const lesson = createLessonView(views.places.lesson, app, parts, open);
  place.replaceChildren(skip,
    el('header', { class: 'shell-top' }, el('p', { class: 'shell-name' }, 'Sheaf'), views.nav, lesson.name),
    views.main, app.status.element);
  parts.folder(views.places.folder, app);
  parts.marking(views.places.marking, app);
  createGuide(views.places.guide, app);
  listenToKeys(app, open);
  listenToDrops(app, views.places.lesson);
}
