/** Looking through all files of the folder, one after the other, while the
 * teacher may go on working. */
import type { Engine } from '../engine/types.js';
import type { Kind } from './kinds.js';
import { shown } from './paths.js';
import { checkMessages, spokenMessages, type Said } from './said.js';

/** More are checked when they are opened; this many do not keep a machine busy. */
const kMostChecked = 200;

export interface Checkable { path: string; kind: Kind }

export class Checks extends EventTarget {
  readonly #engine: Engine;
  readonly #known = new Map<string, Said[]>();
  /** A newer list of files ends the round that is under way. */
  #round = 0;

  constructor(engine: Engine) {
    super();
    this.#engine = engine;
  }

  /** What was found in it; undefined: not looked at yet. */
  of(path: string): readonly Said[] | undefined { return this.#known.get(path); }

  /** What was known is kept on the screen until the new answer is there. Event
   * 'checked' after each file. */
  async look(files: readonly Checkable[]): Promise<void> {
    const mine = ++this.#round;
    const there = new Set(files.map(({ path }) => path));
    for (const path of this.#known.keys()) if (!there.has(path)) this.#known.delete(path);
    // A class takes longest, since all its lessons are made up: it comes last.
    const wanted = files.filter(({ kind }) => kind !== 'picture' && kind !== 'other')
      .sort((a, b) => Number(a.kind === 'class') - Number(b.kind === 'class'))
      .slice(0, kMostChecked);
    for (const { path } of wanted) {
      if (mine !== this.#round) return;
      try {
        const { out, err } = await this.#engine.run(['check', shown(path), '--json']);
        if (mine !== this.#round) return;
        this.#known.set(path, checkMessages(out) ?? spokenMessages(err));
      } catch {
        return;
      }
      this.dispatchEvent(new CustomEvent<string>('checked', { detail: path }));
    }
  }

  stop(): void { ++this.#round; }
}
