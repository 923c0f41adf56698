/** What the processes that show pages take for themselves, as the system counts
 * it: what they share with other processes is not theirs alone. */

import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';

/** How often it is looked at (ms). */
const kApart = 100;

interface Taken {
  /** All that no other process has in use, in MiB: the page, its workers, what the
   * browser keeps for both, and pages of the browser's own program. */
  all: number;
  /** Of that what is in no file and was not made to be shared. */
  anonymous: number;
  /** All that is in no file, with what its parent process has as well: what the
   * browser's own task manager shows (from memory). */
  shown: number;
}

function takenBy(process: number): Taken {
  let all = 0;
  let anonymous = 0;
  let counted = false;
  for (const line of readFileSync(`/proc/${process}/smaps`, 'utf8').split('\n')) {
    // A mapping: its place, what is allowed there (p: private), and its file's number.
    const mapping = /^[0-9a-f]+-[0-9a-f]+ ...(.) \S+ \S+ (\d+)/.exec(line);
    if (mapping) counted = mapping[1] === 'p' && mapping[2] === '0';
    const size = Number(/^Private_(?:Dirty|Clean): +(\d+)/.exec(line)?.[1] ?? 0) / 1024;
    all += size;
    if (counted) anonymous += size;
  }
  const status = readFileSync(`/proc/${process}/status`, 'utf8');
  const shown = Number(/^RssAnon:\s+(\d+)/m.exec(status)?.[1] ?? 0) / 1024;
  return { all, anonymous, shown };
}

export class MemoryWatch {
  readonly #most = new Map<string, Taken>();
  readonly #timer: ReturnType<typeof setInterval>;
  #what = '';

  private constructor(now: () => Promise<Taken>) {
    this.#timer = setInterval(() => {
      const what = this.#what;
      if (what === '') return;
      now().then(({ all, anonymous, shown }) => {
        const most = this.#most.get(what) ?? { all: 0, anonymous: 0, shown: 0 };
        this.#most.set(what, { all: Math.max(all, most.all),
          anonymous: Math.max(anonymous, most.anonymous), shown: Math.max(shown, most.shown) });
      }, () => undefined);
    }, kApart);
  }

  /** Of the largest such process, which is the one of the page that is at work. */
  static async begin(browser: Browser): Promise<MemoryWatch> {
    const session = await browser.newBrowserCDPSession();
    return new MemoryWatch(async () => {
      const { processInfo } = await session.send('SystemInfo.getProcessInfo');
      return processInfo.filter(({ type }) => type === 'renderer')
        .map(({ id }) => takenBy(id)).reduce((a, b) => (a.all > b.all ? a : b));
    });
  }

  /** From now on this is what the page does. */
  while(what: string): void { this.#what = what; }

  /** Ends it: "typing 131 MiB (anonymous 112, shown 126), …". */
  end(): string {
    clearInterval(this.#timer);
    return [...this.#most].map(([what, { all, anonymous, shown }]) =>
      `${what} ${all.toFixed(0)} MiB (anonymous ${anonymous.toFixed(0)}, ` +
      `shown ${shown.toFixed(0)})`).join(', ');
  }
}
