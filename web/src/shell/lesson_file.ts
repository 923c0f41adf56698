/** Where the open lesson belongs, and whether that place has all of it. */
import type { Folder, Session } from '../contract.js';
import { offerDownload, pickPlace, writeTo, type Picked } from './files.js';
import { fileName, freePath } from './names.js';

export type Saved = 'saved' | 'downloaded' | 'stopped';

/** Event 'change': the name, or whether all is saved, is another now. */
export class LessonFile extends EventTarget {
  readonly #session: Session;
  readonly #folder: Folder;
  /** The teacher's own file, where the browser lets it be written. */
  #handle: FileSystemFileHandle | null = null;
  #fromFolder = false;
  /** What is on the device; null for a lesson that never was. */
  #saved: string | null = null;
  #unsaved = false;
  /** The teacher's file has line ends of two signs; it keeps them. */
  #twoSigns = false;
  /** The text of the last change, to be offered again where another part opened
   * something over it. */
  #last = { path: '', text: '' };
  #opening = false;
  /** Called where a text with changes was replaced without a question. */
  onReplaced: (path: string, text: string) => void = () => undefined;

  constructor(session: Session, folder: Folder) {
    super();
    this.#session = session;
    this.#folder = folder;
    session.addEventListener('text', () => this.#look());
    session.addEventListener('opened', () => this.#opened());
  }

  get open(): boolean { return this.#session.path !== ''; }
  get name(): string { return fileName(this.#session.path); }
  get unsaved(): boolean { return this.open && this.#unsaved; }

  #look(): void {
    if (this.#opening) return;
    this.#last = { path: this.#session.path, text: this.#session.text };
    const unsaved = this.#saved !== this.#session.text;
    if (unsaved === this.#unsaved) return;
    this.#unsaved = unsaved;
    this.dispatchEvent(new Event('change'));
  }

  #opened(): void {
    if (!this.#opening) {
      // Somebody else opened it, out of the folder.
      if (this.#unsaved && this.#last.path !== '') this.onReplaced(this.#last.path, this.#last.text);
      this.#handle = null;
      this.#fromFolder = this.#folder.paths.includes(this.#session.path);
      this.#saved = this.#fromFolder ? this.#session.text : null;
      this.#twoSigns = this.#session.text.includes('\r\n');
      this.#settle();
    }
  }

  #settle(): void {
    this.#last = { path: this.#session.path, text: this.#session.text };
    this.#unsaved = this.#saved !== this.#session.text;
    this.dispatchEvent(new Event('change'));
  }

  /** A text that is on no disk yet. */
  begin(name: string, text: string): void {
    this.#begin(freePath(name, this.#folder.paths), text, null, null);
  }

  /** One that was chosen or dropped. */
  take(picked: Picked): void {
    this.#begin(`/${picked.name}`, picked.text, picked.handle, picked.text);
  }

  /** One of the folder's, or, where the folder has none of that name, a new one.
   * `saved` is what the folder has; null: nothing. */
  fromFolder(path: string, text: string, saved: string | null): void {
    this.#begin(path, text, null, saved);
    this.#fromFolder = this.#folder.paths.includes(path);
  }

  /** A text that was there before, with its changes. */
  restore(path: string, text: string): void {
    this.#begin(path, text, null, null);
    this.#fromFolder = this.#folder.paths.includes(path);
  }

  #begin(path: string, text: string, handle: FileSystemFileHandle | null, saved: string | null): void {
    this.#opening = true;
    try {
      this.#session.open(path, text);
    } finally {
      this.#opening = false;
    }
    this.#handle = handle;
    this.#fromFolder = false;
    this.#twoSigns = text.includes('\r\n');
    // The editor may keep line ends in its own way; what it has is what was read.
    this.#saved = saved === text ? this.#session.text : saved;
    this.#settle();
  }

  /** Where it came from, else where the teacher says, else a download. */
  async save(): Promise<Saved> {
    const { path, text: written } = this.#session;
    const text = this.#twoSigns ? written.replace(/\r?\n/g, '\r\n') : written;
    let result: Saved = 'saved';
    if (this.#handle) {
      await writeTo(this.#handle, text);
    } else if (this.#fromFolder || (this.#folder.kind === 'opened' && this.#folder.paths.length > 0)) {
      if (await this.#folder.write(path, text) === 'downloaded') result = 'downloaded';
      this.#fromFolder = true;
    } else {
      const place = await pickPlace(this.name);
      if (place === null) return 'stopped';
      if (place === 'none') {
        offerDownload(this.name, text);
        result = 'downloaded';
      } else {
        await writeTo(place, text);
        this.#handle = place;
      }
    }
    // More may have been typed while it was written.
    if (this.#session.path === path) {
      this.#saved = written;
      this.#unsaved = this.#session.text !== written;
      this.dispatchEvent(new Event('change'));
    }
    return result;
  }
}
