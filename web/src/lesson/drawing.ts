/** Draws the pages that are in sight or near it, the most wanted first, one at
 * a time: so a later text never waits for more than one page. */
import type { Engine, Sight } from '../engine/types.js';
import { KeyClock } from './key_clock.js';
import type { PageCanvas } from './page_canvas.js';
import type { First, LessonSession } from './session.js';

/** In heights of the window: drawn ahead, and kept. */
const kAhead = 0.5;
const kKept = 2;
/** While somebody types, only what is in sight is drawn: what is near it waits
 * for so long a rest (ms). */
const kRest = 300;

export class Drawing {
  readonly #engine: Engine;
  readonly #session: LessonSession;
  readonly #pages: () => readonly PageCanvas[];
  readonly #clock: KeyClock;
  /** Pages that could not be drawn for this text. */
  readonly #failed = new Set<PageCanvas>();
  /** Those that were in sight when last looked at. */
  readonly #seen = new Set<PageCanvas>();
  #busy = false;
  #again = false;
  #planned = false;
  #resting: ReturnType<typeof setTimeout> | undefined;

  constructor(engine: Engine, session: LessonSession, pages: () => readonly PageCanvas[]) {
    this.#engine = engine;
    this.#session = session;
    this.#pages = pages;
    this.#clock = new KeyClock(session);
    session.sights = () => this.#sights();
    session.addEventListener('answers', () => {
      this.#failed.clear();
      clearTimeout(this.#resting);
      this.#resting = setTimeout(() => {
        this.#resting = undefined;
        void this.now();
      }, kRest);
    });
  }

  /** Something moved or changed its size: looks at it once a frame. */
  soon(): void {
    if (this.#planned) return;
    this.#planned = true;
    requestAnimationFrame(() => {
      this.#planned = false;
      void this.now();
    });
  }

  async now(): Promise<void> {
    if (this.#busy) {
      this.#again = true;
      return;
    }
    this.#busy = true;
    do {
      this.#again = false;
      for (;;) {
        const first = this.#session.takeFirst();
        if (first) {
          await this.#put(first);
          continue;
        }
        // The engine has a later text; its answers begin this again.
        if (!this.#session.drawable) break;
        const version = this.#session.answered;
        const next = this.#next();
        if (!next?.seen) this.#clock.nothingMore(version);
        if (!next) break;
        // The first is the page that is being written about.
        if (await this.#draw(next.page, next.dpi) && next.seen) this.#clock.drawn(version);
      }
    } while (this.#again);
    this.#busy = false;
  }

  /** The pages in sight as they are, the one that is written about first. */
  #sights(): Sight[] {
    const found: Sight[] = [];
    for (const page of this.#seen) {
      const sight = page.figure.isConnected ? page.sight(window.devicePixelRatio) : null;
      if (!sight) continue;
      if (page.framed) found.unshift(sight);
      else found.push(sight);
    }
    return found;
  }

  async #put({ version, drawn }: First): Promise<void> {
    const one = await drawn;
    if (!one) return;
    const page = this.#pages().find(({ number }) => number === one.page);
    if (page?.put(one.look, one.dpi, one.picture)) this.#clock.drawn(version);
    this.#engine.giveBack(one.picture);
  }

  async #draw(page: PageCanvas, dpi: number): Promise<boolean> {
    const look = page.page?.look ?? '';
    const { path } = this.#session;
    const picture = await this.#engine.draw(path, page.number, dpi).catch(() => null);
    const put = picture !== null && path === this.#session.path && page.put(look, dpi, picture);
    if (picture) this.#engine.giveBack(picture);
    if (put) return true;
    // A page that is another by now may well be drawn.
    if (page.page?.look === look) this.#failed.add(page);
    return false;
  }

  /** The page to be drawn next; `seen`: some of it is in sight. */
  #next(): { page: PageCanvas; dpi: number; seen: boolean } | null {
    const high = window.innerHeight;
    this.#seen.clear();
    let best: { page: PageCanvas; dpi: number; seen: boolean; away: number } | null = null;
    for (const page of this.#pages()) {
      const box = page.canvas.getBoundingClientRect();
      if (box.width === 0) continue;
      const away = Math.max(0, -box.bottom, box.top - high);
      if (away > kKept * high) page.release();
      if (away === 0) this.#seen.add(page);
      const far = this.#resting === undefined ? kAhead * high : 0;
      if (away > far || this.#failed.has(page)) continue;
      const dpi = page.wanted(window.devicePixelRatio);
      if (dpi === 0) continue;
      // What is framed is what is being written about.
      const rank = away - (page.framed && away === 0 ? 1 : 0);
      if (!best || rank < best.away) best = { page, dpi, seen: away === 0, away: rank };
    }
    return best;
  }
}
