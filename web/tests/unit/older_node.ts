/** Debian 12's Node (18) has these, but not under the names that a browser has. */
import { File as NodeFile } from 'node:buffer';
import { webcrypto } from 'node:crypto';

class DetailEvent<T> extends Event {
  readonly detail: T | undefined;
  constructor(type: string, wishes?: { detail?: T }) {
    super(type);
    this.detail = wishes?.detail;
  }
}

for (const [name, value] of Object.entries({ crypto: webcrypto, File: NodeFile, CustomEvent: DetailEvent })) {
  if (!(name in globalThis)) Object.defineProperty(globalThis, name, { value });
}
