/** From a key to the page that it changed: measures of the browser's own kind,
 * named 'sheaf-key-page', for whoever looks at them. */
import type { LessonSession } from './session.js';

const kMeasuresKept = 1000;

export class KeyClock {
  /** Texts whose pages are not drawn yet, and when they were written. */
  readonly #keys = new Map<number, number>();
  #made = 0;

  constructor(session: LessonSession) {
    session.addEventListener('text', () => this.#keys.set(session.version, performance.now()));
    session.addEventListener('opened', () => this.#keys.clear());
  }

  /** A page that this text changed is drawn. */
  drawn(version: number): void {
    const begun = this.#take(version);
    if (begun.length === 0) return;
    // Drawn is what the next frame shows.
    requestAnimationFrame(() => {
      performance.mark('sheaf-page', { detail: version });
      for (const start of begun) {
        this.#made += 1;
        if (this.#made % kMeasuresKept === 0) performance.clearMeasures('sheaf-key-page');
        performance.measure('sheaf-key-page', { start, end: performance.now() });
      }
    });
  }

  /** Nothing (more) that is in sight was changed by this text. */
  nothingMore(version: number): void {
    this.#take(version);
  }

  #take(version: number): number[] {
    const taken: number[] = [];
    for (const [key, start] of this.#keys) {
      if (key > version) continue;
      taken.push(start);
      this.#keys.delete(key);
    }
    return taken;
  }
}
