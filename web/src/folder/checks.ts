/** Looking through all files of the folder, one after the other, while the
 * teacher may go on working. */
import type { Engine } from '../engine/types.js';
import type { Kind } from './kinds.js';
import { shown } from './paths.js';
import { checkMessages, spokenMessages, type Said } from './said.js';

/** More are checked when they are opened; this many do not keep a machine busy. */
const kMostChecked = 200;

export interface Checkable { path: string; kind: Kind; text: string }

/** Which files are worth another look, once their texts are others: a lesson's
 * mistakes do not depend on other lessons, but a class and a record name them,
 * and all of them may use a sequence, a layout or a picture. `before`: what was
 * looked at, by path. */
export function worthChecking(files: readonly Checkable[], before: ReadonlyMap<string, string>): Checkable[] {
  const changed = files.filter(({ path, text }) => before.get(path) !== text);
  const there = new Set(files.map(({ path }) => path));
  const gone = [...before.keys()].some(path => !there.has(path));
  const alone = (kind: Kind) => kind === 'lesson' || kind === 'record' || kind === 'class';
  const all = gone || changed.some(({ kind }) => !alone(kind));
  const named = changed.some(({ kind }) => kind !== 'record');
  return files.filter(file => all || changed.includes(file) || (named && file.kind !== 'lesson' && alone(file.kind)));
}

export class Checks extends EventTarget {
  readonly #engine: Engine;
  readonly #known = new Map<string, Said[]>();
  /** The texts that were seen when everything was last looked at. */
  readonly #seen = new Map<string, string>();
  /** Still to be looked at, by path. */
  readonly #wanted = new Map<string, Checkable>();
  /** A newer round ends the one that is under way. */
  #round = 0;

  constructor(engine: Engine) {
    super();
    this.#engine = engine;
  }

  /** What was found in it; undefined: not looked at yet. */
  of(path: string): readonly Said[] | undefined { return this.#known.get(path); }

  /** The files as they are now. What was found before stays until the new answer
   * is there. */
  take(files: readonly Checkable[]): void {
    const there = new Set(files.map(({ path }) => path));
    for (const path of this.#known.keys()) if (!there.has(path)) this.#known.delete(path);
    for (const path of this.#wanted.keys()) if (!there.has(path)) this.#wanted.delete(path);
    for (const file of worthChecking(files, this.#seen)) {
      if (file.kind !== 'picture' && file.kind !== 'other') this.#wanted.set(file.path, file);
    }
    this.#seen.clear();
    for (const { path, text } of files) this.#seen.set(path, text);
  }

  /** Goes on until all are looked at, or `stop`. Event 'checked' after each. */
  async run(): Promise<void> {
    const mine = ++this.#round;
    // A class takes longest, since all its lessons are made up: it comes last.
    const wanted = [...this.#wanted.values()]
      .sort((a, b) => Number(a.kind === 'class') - Number(b.kind === 'class')).slice(0, kMostChecked);
    for (const { path } of wanted) {
      if (mine !== this.#round) return;
      try {
        const { out, err } = await this.#engine.run(['check', shown(path), '--json']);
        if (mine !== this.#round) return;
        this.#known.set(path, checkMessages(out) ?? spokenMessages(err));
        this.#wanted.delete(path);
      } catch {
        return;
      }
      this.dispatchEvent(new CustomEvent<string>('checked', { detail: path }));
    }
  }

  stop(): void { ++this.#round; }
}
