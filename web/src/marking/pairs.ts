/** Marking words and attempts that stand in no file. */
import type { Engine } from '../engine/types.js';
import { spokenMessages } from '../folder/said.js';
import { attemptsOf, withCauses, type Attempt } from './attempts.js';

export interface Pair { target: string; written: string }
/** Attempts: one of a word, several of a sentence. */
export type Marked = { attempts: Attempt[] } | { fault: string };

const kKnown = 500;

/** Blanks as one, no tabs: each pair is a line of its own. */
export function tidy(text: string): string { return text.replace(/\s+/g, ' ').trim(); }

/** Remembers what it has marked, so that only what is new is asked for. */
export class PairMarker {
  readonly #engine: Engine;
  readonly #known = new Map<string, Marked>();

  constructor(engine: Engine) {
    this.#engine = engine;
  }

  async mark(pairs: readonly Pair[], accent: string): Promise<Marked[]> {
    const key = ({ target, written }: Pair) => `${target}\t${written}\t${accent}`;
    const fresh = pairs.filter(pair => !this.#known.has(key(pair)));
    const words = fresh.filter(({ target }) => !target.includes(' '));
    if (words.length > 0) {
      const together = await this.#ask(words, accent);
      if ('attempts' in together && together.attempts.length === words.length) {
        words.forEach((pair, i) => {
          const attempt = together.attempts[i];
          if (attempt !== undefined) this.#remember(key(pair), { attempts: [attempt] });
        });
      }
    }
    // A sentence is as many attempts as it has words, so it is asked for alone;
    // and so is each word, where one among them was not understood.
    for (const pair of fresh) {
      if (!this.#known.has(key(pair))) this.#remember(key(pair), await this.#ask([pair], accent));
    }
    return pairs.map(pair => this.#known.get(key(pair)) ?? { fault: '' });
  }

  #remember(key: string, marked: Marked): void {
    if (this.#known.size > kKnown) this.#known.clear();
    this.#known.set(key, marked);
  }

  async #ask(pairs: readonly Pair[], accent: string): Promise<Marked> {
    const input = pairs.map(({ target, written }) => `${target}\t${written}\n`).join('');
    const args = ['mark', '--pairs', '-', ...accent === '' ? [] : ['--accent', accent]];
    const { code, out, err } = await this.#engine.run([...args, '--json'], input);
    const attempts = attemptsOf(out);
    if (code !== 0 || attempts === null) {
      const first = spokenMessages(err).find(({ severity }) => severity === 'error');
      return { fault: first?.text ?? 'This could not be marked.' };
    }
    return { attempts: withCauses(attempts, (await this.#engine.run(args, input)).out, true) };
  }
}
