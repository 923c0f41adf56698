/** The teacher's files: read from the device, put into the engine, written back
 * only when the teacher saves. Nothing of them leaves the page. */
import type { Folder } from '../contract.js';
import type { Engine } from '../engine/types.js';
import { canOpenFolders, chooseFiles, fileHandle, mayWrite, pickFolder, writeFile } from './device.js';
import { fromDirectory, fromDrop, fromList, type Found, type Gathered } from './gather.js';
import { LeftOut } from './left_out.js';
import { baseName, byName, enginePath, isReadable } from './paths.js';

type Bytes = Uint8Array<ArrayBuffer>;
type Offer = (name: string, content: string | Bytes) => void;

interface Known {
  /** The content as it was read or written; on the disk for a chosen file. */
  blob: Blob;
  /** When it was last changed, in milliseconds; 0: not known. */
  changed: number;
  handle: FileSystemFileHandle | null;
  /** The content as text, once somebody wanted it. */
  text?: string;
}

/** What other programs did since the folder was read last: the detail of the
 * event 'outside', which comes before 'change'. */
export interface Outside { changed: string[]; added: string[]; gone: string[] }

/** Folder, and what only the folder's own view needs. Events: 'change', with the
 * paths that are others now (a CustomEvent<string[]>), and 'outside' where
 * another program changed files. */
export class DeviceFolder extends EventTarget implements Folder {
  readonly #engine: Engine;
  readonly #offer: Offer;
  readonly #files = new Map<string, Known>();
  #handle: FileSystemDirectoryHandle | null = null;
  #kind: Folder['kind'] = 'none';
  #name = '';
  #paths: readonly string[] = [];
  #leftOut = new LeftOut();
  /** One thing after the other: a folder is not read while it is written to. */
  #last: Promise<unknown> = Promise.resolve();

  constructor(engine: Engine, offer: Offer) {
    super();
    this.#engine = engine;
    this.#offer = offer;
  }

  get kind(): Folder['kind'] { return this.#kind; }
  get name(): string { return this.#name; }
  get paths(): readonly string[] { return this.#paths; }
  /** What was not taken in when the folder was read. */
  get leftOut(): LeftOut { return this.#leftOut; }
  /** What is kept of the files' contents, by path, for "Keep on this device". */
  async contents(): Promise<{ path: string; bytes: Bytes }[]> {
    const all: { path: string; bytes: Bytes }[] = [];
    for (const path of this.#paths) {
      const bytes = await this.read(path);
      if (bytes !== null) all.push({ path, bytes });
    }
    return all;
  }

  async read(path: string): Promise<Bytes | null> {
    const known = this.#files.get(path);
    if (known === undefined) return null;
    try {
      return new Uint8Array(await known.blob.arrayBuffer());
    } catch {
      // Another program has changed or moved it; the engine has what was read.
      return this.#engine.readFile(path);
    }
  }

  /** '' where it cannot be read. Lists ask for all files after every change, so
   * what was read once is not read again. */
  async textOf(path: string): Promise<string> {
    const known = this.#files.get(path);
    if (known === undefined) return '';
    const bytes = known.text === undefined ? await this.read(path) : null;
    return known.text ??= new TextDecoder().decode(bytes ?? new Uint8Array());
  }

  async write(path: string, content: string | Bytes): Promise<'written' | 'downloaded'> {
    const here = enginePath(path);
    if (here === null) throw new Error(`${path} cannot be the name of a file.`);
    return this.#inTurn(async () => {
      const blob = new Blob([content]);
      let known: Known = { blob, changed: 0, handle: null };
      let how: 'written' | 'downloaded' = 'downloaded';
      if (this.#handle !== null && await mayWrite(this.#handle)) {
        try {
          const handle = await fileHandle(this.#handle, here);
          const file = await writeFile(handle, blob);
          known = { blob: file, changed: file.lastModified, handle };
          how = 'written';
        } catch {
          // A full disk or a folder that cannot be written to: the download
          // keeps what the teacher has made.
        }
      }
      if (how === 'downloaded') this.#offer(baseName(here), content);
      // A PDF is for the printer: Sheaf reads none, and the list would lose it
      // when the folder is looked at again.
      if (!isReadable(here)) return how;
      await this.#engine.putFile(here, content);
      this.#files.set(here, known);
      if (this.#kind === 'none') this.#kind = 'copied';
      this.#tell([here]);
      return how;
    });
  }

  /** The teacher opens a folder. False: none was chosen. */
  async openFolder(): Promise<boolean> {
    if (canOpenFolders()) {
      let handle: FileSystemDirectoryHandle | null;
      try {
        handle = await pickFolder();
        if (handle === null) return false;
      } catch {
        // The way is there and not allowed here, as in a page within a page.
        return this.#take(fromList(await chooseFiles(true)));
      }
      const picked = handle;
      return this.#inTurn(async () => {
        const gathered = await fromDirectory(picked);
        await this.#replace(gathered, 'opened', picked);
        return true;
      });
    }
    return this.#take(fromList(await chooseFiles(true)));
  }

  /** Single files, beside those that are there. */
  async chooseFiles(): Promise<boolean> {
    return this.#take(fromList(await chooseFiles(false)), true);
  }

  /** Must be called while the drop event lasts. */
  async drop(data: DataTransfer): Promise<boolean> {
    return this.#take(await fromDrop(data), true);
  }

  /** Files from another place than the device's disk: what was kept. */
  async restore(name: string, files: readonly { path: string; bytes: Bytes }[]): Promise<void> {
    await this.#inTurn(async () => {
      const found = files.map(({ path, bytes }) => (
        { path, file: new File([bytes], baseName(path), { lastModified: 0 }), handle: null }));
      await this.#replace({ name, files: found, leftOut: new LeftOut() }, 'copied', null);
    });
  }

  async close(): Promise<void> {
    await this.#inTurn(async () => {
      await this.#replace({ name: '', files: [], leftOut: new LeftOut() }, 'none', null);
    });
  }

  /** Looks for what other programs changed; quiet where nothing was. */
  async lookAgain(): Promise<Outside> {
    return this.#inTurn(async () => {
      const outside: Outside = { changed: [], added: [], gone: [] };
      if (this.#handle === null) return outside;
      let now: Gathered;
      try {
        now = await fromDirectory(this.#handle);
      } catch {
        // A stick that was pulled out: what was read is still here to work with.
        return outside;
      }
      const there = new Set(now.files.map(({ path }) => path));
      for (const found of now.files) {
        const known = this.#files.get(found.path);
        if (known === undefined) outside.added.push(found.path);
        else if (known.changed !== found.file.lastModified) outside.changed.push(found.path);
        else continue;
        await this.#put(found);
      }
      for (const [path, known] of this.#files) {
        if (there.has(path) || known.handle === null) continue;
        outside.gone.push(path);
        this.#files.delete(path);
        await this.#engine.removeFile(path);
      }
      this.#leftOut = now.leftOut;
      if (outside.changed.length + outside.added.length + outside.gone.length > 0) {
        this.dispatchEvent(new CustomEvent<Outside>('outside', { detail: outside }));
        this.#tell([...outside.changed, ...outside.added, ...outside.gone]);
      }
      return outside;
    });
  }

  async #take(gathered: Gathered, beside = false): Promise<boolean> {
    if (gathered.files.length === 0 && gathered.leftOut.isEmpty) return false;
    return this.#inTurn(async () => {
      if (beside && this.#kind !== 'none') {
        for (const found of gathered.files) await this.#put(found);
        this.#leftOut = gathered.leftOut;
        this.#tell(gathered.files.map(({ path }) => path));
      } else {
        await this.#replace(gathered, 'copied', null);
      }
      return true;
    });
  }

  async #replace(gathered: Gathered, kind: Folder['kind'], handle: FileSystemDirectoryHandle | null):
  Promise<void> {
    const before = [...this.#files.keys()];
    for (const path of before) await this.#engine.removeFile(path);
    this.#files.clear();
    this.#handle = handle;
    this.#kind = kind;
    this.#name = gathered.name;
    this.#leftOut = gathered.leftOut;
    for (const found of gathered.files) await this.#put(found);
    this.#tell([...before, ...this.#files.keys()]);
  }

  async #put({ path, file, handle }: Found): Promise<void> {
    try {
      await this.#engine.putFile(path, new Uint8Array(await file.arrayBuffer()));
    } catch {
      this.#leftOut.cannotRead(path);
      return;
    }
    this.#files.set(path, { blob: file, changed: file.lastModified, handle });
  }

  #tell(paths: string[]): void {
    this.#paths = [...this.#files.keys()].sort(byName);
    this.dispatchEvent(new CustomEvent<string[]>('change', { detail: paths }));
  }

  async #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#last.then(work);
    this.#last = mine.catch(() => undefined);
    return mine;
  }
}

/** The folder of the page. `offer` saves a file by download. It looks again
 * whenever the teacher comes back to the page. */
export function createFolder(engine: Engine, offer: Offer): DeviceFolder {
  const folder = new DeviceFolder(engine, offer);
  let busy = false;
  const look = () => {
    if (busy || folder.kind !== 'opened' || document.visibilityState !== 'visible') return;
    busy = true;
    void folder.lookAgain().finally(() => { busy = false; });
  };
  window.addEventListener('focus', look);
  document.addEventListener('visibilitychange', look);
  return folder;
}
