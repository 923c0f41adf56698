/** What was not taken in, and why, in one or two sentences. */
import { count } from '../shell/dom.js';
import { baseName, extensionOf, kLimits } from './paths.js';

export class LeftOut {
  readonly #kinds = new Map<string, number>();
  readonly #large: string[] = [];
  readonly #unread: string[] = [];
  #many = 0;
  #deep = 0;

  otherKind(path: string): void {
    const end = extensionOf(path);
    this.#kinds.set(end, (this.#kinds.get(end) ?? 0) + 1);
  }
  tooLarge(path: string): void { this.#large.push(baseName(path)); }
  cannotRead(path: string): void { this.#unread.push(baseName(path)); }
  tooMany(): void { ++this.#many; }
  tooDeep(): void { ++this.#deep; }

  get isEmpty(): boolean { return this.sentences().length === 0; }

  sentences(): string[] {
    const said: string[] = [];
    const others = [...this.#kinds.values()].reduce((sum, n) => sum + n, 0);
    if (others > 0) {
      const ends = [...this.#kinds.keys()].filter(end => end !== '').sort().slice(0, 5)
        .map(end => `.${end}`);
      said.push(`${count(others, 'file')} of a kind that Sheaf does not read` +
        `${ends.length > 0 ? ` (${ends.join(', ')})` : ''}.`);
    }
    if (this.#large.length > 0) {
      said.push(`${count(this.#large.length, 'file')} larger than ` +
        `${kLimits.bytes / 1024 / 1024} megabytes (${named(this.#large)}).`);
    }
    if (this.#unread.length > 0) {
      said.push(`${count(this.#unread.length, 'file')} that could not be read ` +
        `(${named(this.#unread)}).`);
    }
    if (this.#many > 0) {
      said.push(`${count(this.#many, 'file')}, because no more than ${kLimits.files} are taken in. ` +
        'Open a smaller folder.');
    }
    if (this.#deep > 0) {
      said.push(`${count(this.#deep, 'folder')} that lie very deep inside others.`);
    }
    return said;
  }
}

function named(names: readonly string[]): string {
  return names.length > 3 ? `${names.slice(0, 3).join(', ')}, and others` : names.join(', ');
}
