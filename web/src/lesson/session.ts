/** The lesson that is open, and the answers to its text.
 *
 * Typing never waits: a change is only noted, and a worker is asked. While an
 * answer is under way, later texts wait, and of those only the newest is asked.
 * What was answered about an earlier text is moved along with each change, so
 * that places and mends always fit the text as it is now.
 *
 * Pages follow each letter. Messages wait until typing rests: about half a word
 * they would come and go, and the browser would lay them out each time. */
import { ChangeSet, Text } from '@codemirror/state';
import type { Folder, Session } from '../contract.js';
import type { Drawn, Edit, Engine, FileEdits, Message, Pages, Range, Sight } from '../engine/types.js';
import { editText, moveMessages, moveRange, plainLines } from './moves.js';

/** Where the text is written: the editor. Without one the session keeps the
 * text by itself. */
export interface Surface {
  /** Another file: what can be undone is forgotten. */
  replace(doc: Text): void;
  /** One step that can be undone. The surface tells the session by `changed`. */
  change(edits: readonly Edit[]): void;
  show(range: Range): void;
  undo(): void;
  redo(): void;
}

export type SessionEvent = 'text' | 'answers' | 'messages' | 'place' | 'opened';

/** A page that a text changed, under way. */
export interface First { version: number; drawn: Promise<Drawn | null> }

/** Keys after which marks of the browser's clock are thrown away. */
const kMarksKept = 1000;

/** Typing rests when nothing was changed for so long (ms). */
const kRest = 250;

const kNoPages: Pages = { pages: [], stale: false, why: '' };

export class LessonSession extends EventTarget implements Session {
  readonly #engine: Engine;
  readonly #folder: Folder;
  #surface: Surface | null = null;

  #path = '';
  #doc = Text.empty;
  /** The same as a string; null until somebody wants it. */
  #text: string | null = '';
  #cursor = 0;
  #messages: readonly Message[] = [];
  /** Those that wait until typing rests. */
  #coming: readonly Message[] | null = null;
  #resting: ReturnType<typeof setTimeout> | undefined;
  #changedAt = -Infinity;
  #pages: Pages = kNoPages;

  /** Each text, and each wish to look again, has a number. */
  #wanted = 0;
  #sent = 0;
  #answered = 0;
  #asking = false;
  /** What has changed since the text that is being answered. */
  #since: ChangeSet | null = null;
  /** What has changed since the text that the pages are of. */
  #drift: ChangeSet | null = null;
  /** Counts the texts opened: answers about an earlier one are dropped. */
  #opened = 0;
  #waiting: (() => void)[] = [];
  /** A page asked for together with the text that is answered. */
  #first: First | null = null;
  #marks = 0;

  constructor(engine: Engine, folder: Folder) {
    super();
    this.#engine = engine;
    this.#folder = folder;
  }

  get path(): string { return this.#path; }
  get text(): string { return (this.#text ??= this.#doc.toString()); }
  get doc(): Text { return this.#doc; }
  get cursor(): number { return this.#cursor; }
  get messages(): readonly Message[] { return this.#messages; }
  get pages(): Pages { return this.#pages; }

  /** The number of the text as it is now. */
  get version(): number { return this.#wanted; }
  /** The number of the text that messages and pages are about. */
  get answered(): number { return this.#answered; }
  /** Whether the engine, asked now, would draw the pages that are shown: it has
   * had no later text. */
  get drawable(): boolean { return this.#sent === this.#answered; }

  /** The pages in sight, the most wanted first. */
  sights: () => readonly Sight[] = () => [];
  /** The page that was asked for with the text, once. */
  takeFirst(): First | null {
    const first = this.#first;
    this.#first = null;
    return first;
  }

  attach(surface: Surface): void {
    this.#surface = surface;
    surface.replace(this.#doc);
  }

  open(path: string, text: string): void {
    const before = this.#path;
    this.#opened += 1;
    this.#path = path;
    this.#doc = Text.of(plainLines(text));
    this.#text = null;
    this.#cursor = 0;
    this.#messages = [];
    this.#coming = null;
    this.#changedAt = -Infinity;
    this.#pages = kNoPages;
    this.#since = null;
    this.#drift = null;
    this.#surface?.replace(this.#doc);
    // The file below shows again as it was saved.
    if (before !== '' && before !== path) this.#engine.close(before).catch(() => undefined);
    this.#wanted += 1;
    this.#tell('opened');
    this.#tell('text');
    this.#tell('place');
    void this.#ask();
  }

  apply(edits: readonly Edit[]): void {
    if (edits.length === 0) return;
    if (this.#surface) {
      this.#surface.change(edits);
    } else {
      const changes = ChangeSet.of(edits.map((edit) => ({ ...edit })), this.#doc.length);
      this.changed(changes, changes.apply(this.#doc));
    }
  }

  async applyFiles(files: readonly FileEdits[]): Promise<void> {
    // The others first: where one cannot be written, the open text stays too.
    const path = this.#path;
    const others = files.filter((file) => file.path !== path);
    const texts: { path: string; text: string }[] = [];
    for (const file of others) {
      const bytes = await this.#engine.readFile(file.path);
      if (!bytes) throw new Error(`There is no file \`${file.path.replace(/^\//, '')}\` to change.`);
      texts.push({ path: file.path, text: editText(new TextDecoder().decode(bytes), file.edits) });
    }
    for (const { path: other, text } of texts) await this.#folder.write(other, text);
    if (this.#path === path) {
      for (const file of files) if (file.path === path) this.apply(file.edits);
    }
    if (others.length > 0) this.lookAgain();
  }

  goTo(range: Range): void {
    const last = this.#doc.length;
    const from = Math.max(0, Math.min(range.from, last));
    const to = Math.max(from, Math.min(range.to, last));
    if (this.#surface) this.#surface.show({ from, to });
    else this.moved(from);
  }

  undo(): void { this.#surface?.undo(); }
  redo(): void { this.#surface?.redo(); }

  lookAgain(): void {
    if (this.#path === '') return;
    this.#wanted += 1;
    void this.#ask();
  }

  settled(): Promise<void> {
    if (!this.#asking && this.#answered === this.#wanted) {
      this.#tellMessages();
      return Promise.resolve();
    }
    return new Promise((resolve) => this.#waiting.push(resolve));
  }

  /** Gives the engine the text as it is now, so that what is asked next is
   * asked about this text; the worker answers in the order of asking. */
  push(): void {
    if (this.#path === '' || this.#sent === this.#wanted) return;
    this.#sent = this.#wanted;
    this.#engine.change(this.#path, this.text).catch(() => undefined);
  }

  /** The surface has another text now. */
  changed(changes: ChangeSet, doc: Text): void {
    if (changes.empty) return;
    this.#doc = doc;
    this.#text = null;
    this.#cursor = Math.min(changes.mapPos(this.#cursor, 1), doc.length);
    this.#wanted += 1;
    this.#changedAt = performance.now();
    this.#mark();
    this.#drift = this.#drift ? this.#drift.compose(changes) : changes;
    if (this.#asking) this.#since = this.#since ? this.#since.compose(changes) : changes;
    this.#messages = moveMessages(this.#messages, this.#path, changes, doc);
    this.#coming &&= moveMessages(this.#coming, this.#path, changes, doc);
    this.#tell('text');
    void this.#ask();
  }

  /** The cursor is elsewhere. */
  moved(cursor: number): void {
    if (cursor === this.#cursor) return;
    this.#cursor = cursor;
    this.#tell('place');
  }

  /** A place as the last good pages know it, in the text as it is now. */
  fromPages(range: Range): Range {
    if (!this.#pages.stale || !this.#drift) return range;
    return moveRange(range, this.#drift);
  }

  /** The other way round. */
  toPages(range: Range): Range {
    if (!this.#pages.stale || !this.#drift) return range;
    return moveRange(range, this.#drift.invertedDesc);
  }

  async #ask(): Promise<void> {
    if (this.#asking) return;
    this.#asking = true;
    while (this.#answered !== this.#wanted) {
      const version = this.#wanted;
      const opened = this.#opened;
      const path = this.#path;
      this.#since = null;
      this.#sent = version;
      let answers: [void, Message[], Pages] | null = null;
      let drawn: Promise<Drawn | null> | null = null;
      try {
        // Asked in one breath: nothing can come between. The page is drawn while
        // the answers are being shown.
        const asked = Promise.all([
          this.#engine.change(path, this.text),
          this.#engine.messages(path),
          this.#engine.pages(path),
        ]);
        const sights = this.sights();
        if (sights.length > 0) {
          drawn = this.#engine.drawChanged(path, sights).catch(() => null);
        }
        answers = await asked;
      } catch {
        // Whoever runs the worker says why and begins another; here the last
        // good answers stay, and the next change asks again.
      }
      this.#answered = version;
      const first = drawn && { version, drawn };
      if (opened !== this.#opened) {
        this.#unused(first);
        continue;
      }
      if (answers) {
        const [, messages, pages] = answers;
        const since: ChangeSet | null = this.#since;
        this.#coming = since ? moveMessages(messages, path, since, this.#doc) : messages;
        this.#pages = pages;
        if (!pages.stale) this.#drift = since;
        this.#unused(this.#first);
        this.#first = first;
      } else {
        this.#unused(first);
        this.#pages = { ...this.#pages, stale: true, why: 'Sheaf could not look at this text' };
      }
      this.#tell('answers');
      this.#tellMessagesAtRest();
    }
    this.#asking = false;
    if (this.#waiting.length > 0) this.#tellMessages();
    for (const settle of this.#waiting.splice(0)) settle();
  }

  #tellMessagesAtRest(): void {
    clearTimeout(this.#resting);
    const left = this.#changedAt + kRest - performance.now();
    if (left > 0) this.#resting = setTimeout(() => this.#tellMessagesAtRest(), left);
    else this.#tellMessages();
  }

  #tellMessages(): void {
    clearTimeout(this.#resting);
    if (this.#coming === null) return;
    this.#messages = this.#coming;
    this.#coming = null;
    this.#tell('messages');
  }

  /** A later text came first: nobody will show that page. */
  #unused(first: First | null): void {
    void first?.drawn.then((one) => { if (one) this.#engine.giveBack(one.picture); });
  }

  /** When a key was pressed, for what is drawn by it. */
  #mark(): void {
    this.#marks += 1;
    if (this.#marks % kMarksKept === 0) {
      for (const name of ['sheaf-key', 'sheaf-page']) performance.clearMarks(name);
    }
    performance.mark('sheaf-key', { detail: this.#wanted });
  }

  #tell(event: SessionEvent): void {
    this.dispatchEvent(new Event(event));
  }
}

export function createSession(engine: Engine, folder: Folder): LessonSession {
  return new LessonSession(engine, folder);
}

/** The parts of this folder need more of the session than others do. */
export function lessonSession(session: Session): LessonSession {
  if (session instanceof LessonSession) return session;
  throw new TypeError('The session was not made by createSession.');
}
