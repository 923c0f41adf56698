/** When the pages follow the text. They do so gently: only for another line or
 * other pages, only where nothing of those pages is in sight, and never while
 * the reader is moving the pages by hand. */

/** After the reader moved the pages, nothing moves them for so long (ms). */
export const kHandsOff = 1500;

export interface Sight {
  /** Top and bottom of what is in sight, and of each page, in one measure. */
  top: number;
  bottom: number;
  pages: { number: number; top: number; bottom: number }[];
}

/** How much of a page has to be in sight to count. */
const kEnough = 120;

export class Follower {
  #place = '';
  #touched = -Infinity;
  /** The reader moved the pages after the cursor last came to a place. */
  #led = false;

  /** The reader scrolled, or pressed a key among the pages. */
  touched(now: number): void {
    this.#touched = now;
    this.#led = true;
  }

  /** Where to bring the top of the sight for these pages; null: stay. `place`
   * says which line the cursor is in. */
  target(place: string, wanted: readonly number[], sight: Sight, now: number): number | null {
    const moved = place !== this.#place;
    if (moved) {
      this.#place = place;
      this.#led = now - this.#touched < kHandsOff;
    }
    if (this.#led || wanted.length === 0) return null;
    const all = sight.pages.filter((page) => wanted.includes(page.number));
    const seen = all.some((page) =>
      Math.min(page.bottom, sight.bottom) - Math.max(page.top, sight.top)
        >= Math.min(kEnough, page.bottom - page.top));
    if (seen) return null;
    // The nearest: least is moved.
    const middle = (sight.top + sight.bottom) / 2;
    let best: { number: number; top: number; bottom: number } | null = null;
    for (const page of all) {
      const far = Math.abs((page.top + page.bottom) / 2 - middle);
      if (!best || far < Math.abs((best.top + best.bottom) / 2 - middle)) best = page;
    }
    return best ? best.top : null;
  }
}
