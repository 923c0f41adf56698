/** The pages beside the text: large, drawn as they come into sight, and in step
 * with the cursor. */
import type { App, Part } from '../contract.js';
import type { PageInfo } from '../engine/types.js';
import { Drawing } from './drawing.js';
import { Follower } from './follow.js';
import { PageCanvas } from './page_canvas.js';
import { createPagesBar, type Readers } from './pages_bar.js';
import { placeAt, showLines } from './page_lines.js';
import { lessonSession } from './session.js';
import { counted, make, setHidden, setText } from './words.js';

/** Room beside a page, less in a narrow column, and the least that a page is
 * made (CSS pixels). */
const kMargin = 24;
const kNarrowMargin = 8;
const kNarrow = 500;
const kLeastWidth = 160;
/** The cursor rests for so long before the pages are asked for (ms). */
const kRest = 120;

interface Group { teacher: boolean; section: HTMLElement; head: HTMLElement; list: HTMLElement }

function createGroup(teacher: boolean): Group {
  const section = make('section', 'pg-group');
  const head = make('h2', 'pg-group-head', teacher ? 'For the teacher' : 'For the learner');
  const list = make('div', 'pg-list');
  section.append(head, list);
  return { teacher, section, head, list };
}

/** Which canvas shows which page: one that shows the same already, so that a
 * page that only moved is not drawn again; else any. */
export function matched(before: readonly (string | null)[], looks: readonly string[]): number[] {
  const free = new Map<string, number[]>();
  before.forEach((look, index) => {
    if (look !== null) free.set(look, [...(free.get(look) ?? []), index]);
  });
  const taken = new Set<number>();
  const result = looks.map((look, index) => {
    const same = free.get(look);
    const at = before[index] === look && !taken.has(index) ? index
      : same?.find((one) => !taken.has(one)) ?? -1;
    if (at >= 0) taken.add(at);
    return at;
  });
  // Those without: the one at the same place if it can be had.
  let next = 0;
  return result.map((at, index) => {
    if (at >= 0) return at;
    let other = index < before.length && !taken.has(index) ? index : -1;
    while (other < 0) {
      if (!taken.has(next)) other = next;
      next += 1;
    }
    taken.add(other);
    return other;
  });
}

export const createPages: Part = (parent: HTMLElement, app: App): void => {
  const session = lessonSession(app.session);
  const root = make('div', 'pg');
  const groups = [createGroup(false), createGroup(true)];
  const scroller = make('div', 'pg-scroll');
  scroller.append(...groups.map((group) => group.section));
  let pages: PageCanvas[] = [];
  let zoom = 1;
  let readers: Readers = 'learner';
  const drawing = new Drawing(app.engine, session, () => pages);
  const follower = new Follower();

  const bar = createPagesBar({
    zoom(by) {
      zoom = by === 0 ? 1 : Math.max(0.3, Math.min(4, zoom * by));
      fit();
    },
    show(whose) {
      readers = whose;
      arrange();
    },
    skip() { document.querySelector<HTMLElement>('.ms-title')?.focus(); },
  });
  root.append(bar.element, scroller);
  parent.append(root);

  const fit = (): void => {
    if (scroller.clientWidth === 0) return;
    const margin = scroller.clientWidth < kNarrow ? kNarrowMargin : kMargin;
    root.style.setProperty('--pg-margin', `${margin}px`);
    const width = Math.round(Math.max(kLeastWidth, scroller.clientWidth - 2 * margin) * zoom);
    for (const page of pages) page.resize(width);
    const first = session.pages.pages[0];
    bar.size(first ? width / (first.width * 96 / 72) : 0, zoom === 1);
    drawing.soon();
  };

  /** Which groups are there to be seen. */
  const arrange = (): void => {
    for (const group of groups) {
      const wanted = readers === 'both' || (readers === 'teacher') === group.teacher;
      setHidden(group.section, !wanted || group.list.childElementCount === 0);
    }
    fit();
  };

  const createPage = (): PageCanvas => new PageCanvas(
    (page, x, y) => { void placeAt(app, session, page, x, y); },
    (page) => { void showLines(app, session, page); });

  const fill = (group: Group, all: readonly PageInfo[]): PageCanvas[] => {
    const mine = all.flatMap((page, number) => (page.teacher === group.teacher ? [{ page, number }] : []));
    const before = pages.filter((page) => page.page?.teacher === group.teacher);
    const places = matched(before.map((page) => page.page?.look ?? null),
                           mine.map(({ page }) => page.look));
    const after = mine.map(({ page, number }, index) => {
      const canvas = before[places[index] ?? -1] ?? createPage();
      canvas.show(page, number, index + 1);
      return canvas;
    });
    for (const page of before) if (!after.includes(page)) page.figure.remove();
    after.forEach((page, index) => {
      const there = group.list.children[index];
      if (there !== page.figure) group.list.insertBefore(page.figure, there ?? null);
    });
    setText(group.head, `${group.teacher ? 'For the teacher' : 'For the learner'}: `
      + counted(mine.length, 'page', 'pages'));
    return after;
  };

  const renew = (): void => {
    const { pages: all, stale, why } = session.pages;
    pages = groups.flatMap((group) => fill(group, all));
    root.classList.toggle('pg-stale', stale);
    bar.say(session.pages, session.path !== '' && session.answered === session.version ? why : '');
    arrange();
    void drawing.now();
    rest();
  };

  const sight = () => {
    const box = scroller.getBoundingClientRect();
    const shown = pages.filter((page) => page.figure.offsetParent !== null).map((page) => {
      const at = page.figure.getBoundingClientRect();
      return { number: page.number, top: at.top - box.top, bottom: at.bottom - box.top };
    });
    return { top: 0, bottom: box.height, pages: shown };
  };

  const follow = async (): Promise<void> => {
    const { path, answered } = session;
    if (answered !== session.version || pages.length === 0) return;
    const line = session.doc.lineAt(Math.min(session.cursor, session.doc.length));
    const { from, to } = session.toPages(line);
    const wanted = await app.engine.pagesOf(path, from, to).catch(() => null);
    if (!wanted || path !== session.path || answered !== session.version) return;
    for (const page of pages) page.frame(wanted.includes(page.number));
    // Where the whole document scrolls, it is not ours to move.
    const own = scroller.scrollHeight > scroller.clientHeight + 1;
    const top = follower.target(`${path}:${line.number}`, wanted, sight(), performance.now());
    if (top === null || !own) return;
    const calm = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    scroller.scrollTo({ top: scroller.scrollTop + top - 12, behavior: calm ? 'instant' : 'smooth' });
  };
  let resting: ReturnType<typeof setTimeout> | undefined;
  const rest = (): void => {
    clearTimeout(resting);
    resting = setTimeout(() => { void follow(); }, kRest);
  };

  session.addEventListener('answers', renew);
  session.addEventListener('place', rest);
  session.addEventListener('opened', () => {
    scroller.scrollTop = 0;
    renew();
  });
  for (const touch of ['wheel', 'touchmove', 'pointerdown', 'keydown'] as const) {
    scroller.addEventListener(touch, () => follower.touched(performance.now()), { passive: true });
  }
  // Scrolling does not bubble, and it may be the document that scrolls.
  document.addEventListener('scroll', () => drawing.soon(), { capture: true, passive: true });
  new ResizeObserver(() => fit()).observe(scroller);
  window.addEventListener('resize', () => drawing.soon());
  renew();
};
