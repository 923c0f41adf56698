/** From a page back to the text. */
import type { App } from '../contract.js';
import type { PageCanvas } from './page_canvas.js';
import type { LessonSession } from './session.js';
import { fileName, make, makeButton } from './words.js';

/** A click on a page: to the line that made what is there. */
export async function placeAt(app: App, session: LessonSession, page: PageCanvas,
                              x: number, y: number): Promise<void> {
  session.push();
  const { version, path } = session;
  const place = await app.engine.atPoint(path, page.number, x, y).catch(() => null);
  if (version !== session.version) return;
  if (!place) app.say('No line of the lesson makes this: it stands on every such page.');
  else if (place.path === path) session.goTo(session.fromPages(place.range));
  else app.say(`This comes from ${fileName(place.path)}, line ${place.line}.`);
}

export interface LineOnPage { from: number; to: number; number: number; text: string }

/** The lines of the text that this page shows something of, in order. */
export async function linesOf(app: App, session: LessonSession,
                              page: number): Promise<LineOnPage[]> {
  session.push();
  const lines: LineOnPage[] = [];
  for (let number = 1; number <= session.doc.lines; number += 1) {
    const { from, to, text } = session.doc.line(number);
    const words = text.trim();
    if (words !== '' && !words.startsWith('#')) lines.push({ from, to, number, text: words });
  }
  const pages = await Promise.all(lines.map((line) => {
    const { from, to } = session.toPages(line);
    return app.engine.pagesOf(session.path, from, to).catch((): number[] => []);
  }));
  return lines.filter((_, index) => pages[index]?.includes(page));
}

/** "Show its lines": to the line if there is one, else a list to choose from,
 * which the same button takes away again. */
export async function showLines(app: App, session: LessonSession,
                                page: PageCanvas): Promise<void> {
  const open = page.figure.querySelector('.pg-line-list');
  if (open) {
    open.remove();
    page.lines.setAttribute('aria-expanded', 'false');
    return;
  }
  const { version } = session;
  const lines = await linesOf(app, session, page.number);
  if (version !== session.version) return;
  const [first] = lines;
  if (!first) {
    app.say('No line of the lesson makes this page.');
    return;
  }
  if (lines.length === 1) {
    session.goTo({ from: first.from, to: first.from });
    return;
  }
  const list = make('ul', 'pg-line-list');
  const close = (): void => {
    list.remove();
    page.lines.setAttribute('aria-expanded', 'false');
  };
  for (const line of lines) {
    const item = make('li');
    item.append(makeButton(`Line ${line.number}: ${line.text}`, 'pg-line', () => {
      close();
      session.goTo({ from: line.from, to: line.from });
    }));
    list.append(item);
  }
  list.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    close();
    page.lines.focus();
  });
  // Its lines are others after the next key.
  session.addEventListener('text', close, { once: true });
  page.figure.append(list);
  page.lines.setAttribute('aria-expanded', 'true');
  list.querySelector('button')?.focus({ preventScroll: true });
}
