/** "Keep on this device": one sealed record in the browser's own database, and
 * only once the teacher has said so. */
import { bundled, unbundled, type Kept } from './bundle.js';
import { isSealed, keyOf, kRounds, seal, unseal, WrongPassphrase } from './sealing.js';

const kDatabase = 'sheaf-kept';
const kStore = 'kept';
const kRecord = 'all';

/** Its message is a plain sentence for the teacher. */
export class KeepFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'KeepFault';
  }
}

function wordsFor(fault: unknown): string {
  const name = fault instanceof Error ? fault.name : '';
  if (name === 'QuotaExceededError') {
    return 'The browser has no room to keep this. Nothing was lost: what was kept before is ' +
      'still kept, and your files are as they were. Save them as files, or keep fewer.';
  }
  if (name === 'InvalidStateError' || name === 'SecurityError' || name === 'NotAllowedError') {
    return 'This browser does not let the page keep anything, as in a private window. ' +
      'Your files are as they were: save them as files.';
  }
  return 'The browser could not keep this. Your files are as they were: save them as files.';
}

async function answer<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => { resolve(request.result); };
    request.onerror = () => { reject(request.error ?? new Error('no answer')); };
  });
}

async function finished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => { resolve(); };
    transaction.onabort = () => { reject(transaction.error ?? new Error('stopped')); };
  });
}

export class Keeper {
  readonly #factory: IDBFactory;
  readonly #rounds: number;
  /** Made from the passphrase; it cannot be read out, and ends with the page. */
  #key: CryptoKey | null = null;
  /** One write after the other, or an older one could end last. */
  #last: Promise<void> = Promise.resolve();

  constructor(factory: IDBFactory, rounds = kRounds) {
    this.#factory = factory;
    this.#rounds = rounds;
  }

  /** Whether the passphrase was given since the page was opened. */
  get unlocked(): boolean { return this.#key !== null; }

  /** Whether something is kept. Asking makes no database where there is none. */
  async holds(): Promise<boolean> {
    try {
      // Where a browser has no such list, asking makes an empty database.
      const known = await (this.#factory.databases as IDBFactory['databases'] | undefined)
        ?.call(this.#factory);
      if (known !== undefined && !known.some(({ name }) => name === kDatabase)) return false;
      return await this.#read() !== null;
    } catch {
      return false;
    }
  }

  /** From now on `keep` seals with this passphrase. */
  async begin(passphrase: string): Promise<void> {
    this.#key = await keyOf(passphrase);
  }

  /** Nothing more is kept; what was kept before stays. */
  forget(): void { this.#key = null; }

  /** Replaces what was kept; where that fails, what was kept stays. */
  async keep(kept: Kept): Promise<void> {
    const key = this.#key;
    if (key === null) throw new KeepFault('Choose a passphrase first.');
    const mine = this.#last.then(async () => {
      try {
        const sealed = await seal(key, bundled(kept), this.#rounds);
        // It may have been removed while this was being sealed.
        if (this.#key !== key) return;
        await this.#inStore('readwrite', store => store.put(sealed, kRecord));
      } catch (fault) {
        throw new KeepFault(wordsFor(fault));
      }
    });
    this.#last = mine.catch(() => undefined);
    return mine;
  }

  /** Throws WrongPassphrase or KeepFault; the passphrase of `keep` is then as before. */
  async unlock(passphrase: string): Promise<Kept> {
    let stored: unknown;
    try {
      stored = await this.#read();
    } catch (fault) {
      throw new KeepFault(wordsFor(fault));
    }
    if (stored === null) throw new KeepFault('Nothing is kept here.');
    if (!isSealed(stored)) throw new WrongPassphrase();
    const key = await keyOf(passphrase);
    const kept = unbundled(await unseal(key, stored));
    if (kept === null) throw new WrongPassphrase();
    this.#key = key;
    return kept;
  }

  /** Everything kept is gone, and nothing is kept from now on. */
  async remove(): Promise<void> {
    this.#key = null;
    await this.#last;
    return new Promise((resolve, reject) => {
      const request = this.#factory.deleteDatabase(kDatabase);
      request.onsuccess = () => { resolve(); };
      request.onerror = () => {
        reject(new KeepFault('The browser could not remove what is kept. Try again, or remove ' +
          'the data of this page in the browser’s settings.'));
      };
      request.onblocked = () => {
        reject(new KeepFault('Another tab has this page open. Close it, and remove again.'));
      };
    });
  }

  async #read(): Promise<unknown> {
    const found: unknown = await this.#inStore('readonly', store => store.get(kRecord));
    return found ?? null;
  }

  /** The database is open only while it is needed, so that another tab may remove it. */
  async #inStore<T>(mode: IDBTransactionMode,
    use: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
    const opening = this.#factory.open(kDatabase, 1);
    opening.onupgradeneeded = () => { opening.result.createObjectStore(kStore); };
    const database = await answer(opening);
    try {
      const transaction = database.transaction(kStore, mode);
      const done = finished(transaction);
      const [result] = await Promise.all([answer(use(transaction.objectStore(kStore))), done]);
      return result;
    } finally {
      database.close();
    }
  }
}
