/** What the processes that show pages take for themselves, as the system counts
 * it: what they share with other processes is not theirs alone. */

import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';

/** How often it is looked at (ms). */
const kApart = 100;

/** In MiB: the page, its workers, and what the browser keeps for both. */
function privateOf(process: number): number {
  const rollup = readFileSync(`/proc/${process}/smaps_rollup`, 'utf8');
  let sum = 0;
  for (const [, kilobytes] of rollup.matchAll(/Private_(?:Dirty|Clean):\s+(\d+)/g)) {
    sum += Number(kilobytes);
  }
  return sum / 1024;
}

export class MemoryWatch {
  readonly #most = new Map<string, number>();
  readonly #timer: ReturnType<typeof setInterval>;
  #what = '';

  private constructor(now: () => Promise<number>) {
    this.#timer = setInterval(() => {
      const what = this.#what;
      if (what === '') return;
      now().then((size) => { this.#most.set(what, Math.max(size, this.#most.get(what) ?? 0)); },
                 () => undefined);
    }, kApart);
  }

  /** Of the largest such process, which is the one of the page that is at work. */
  static async begin(browser: Browser): Promise<MemoryWatch> {
    const session = await browser.newBrowserCDPSession();
    return new MemoryWatch(async () => {
      const { processInfo } = await session.send('SystemInfo.getProcessInfo');
      return Math.max(...processInfo.filter(({ type }) => type === 'renderer')
        .map(({ id }) => privateOf(id)));
    });
  }

  /** From now on this is what the page does. */
  while(what: string): void { this.#what = what; }

  /** Ends it: "most while typing 131 MiB, …". */
  end(): string {
    clearInterval(this.#timer);
    return [...this.#most].map(([what, size]) => `${what} ${size.toFixed(0)} MiB`).join(', ');
  }
}
