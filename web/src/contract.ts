/** What the parts of the page know of each other. */
import type { Edit, Engine, FileEdits, Message, Pages, Range } from './engine/types.js';

/** The lesson that is open (src/lesson/session.ts). Its text is the truth: the
 * form, the editor and all buttons change it through `apply` or `setText`.
 *
 * Events: 'text' after every change of it; 'answers' when pages are new;
 * 'messages' when messages are, which is once typing rests; 'place' when the
 * cursor moved; 'opened' when another file was opened. */
export interface Session extends EventTarget {
  readonly path: string;
  readonly text: string;
  /** Where the cursor is, an offset. */
  readonly cursor: number;
  readonly messages: readonly Message[];
  readonly pages: Pages;
  /** Opens another text; what can be undone is forgotten. */
  open(path: string, text: string): void;
  /** Each can be undone. */
  apply(edits: readonly Edit[]): void;
  /** Changes of several files: the open one here, the others through the engine
   * and the folder. */
  applyFiles(files: readonly FileEdits[]): Promise<void>;
  /** Puts the cursor there and brings it into sight. */
  goTo(range: Range): void;
  /** All answers anew: files beside the lesson, or options, are others now. */
  lookAgain(): void;
  /** Settles when the answers belong to the text as it is now. */
  settled(): Promise<void>;
}

/** The teacher's files (src/folder/folder.ts), on this device only. */
export interface Folder extends EventTarget {
  /** 'none', 'opened' from the device with the right to write, or 'copied'
   * (dropped or chosen: saving means a download). Event 'change'. */
  readonly kind: 'none' | 'opened' | 'copied';
  readonly name: string;
  /** Paths as the engine has them: "/class.yaml". */
  readonly paths: readonly string[];
  read(path: string): Promise<Uint8Array<ArrayBuffer> | null>;
  /** Writes it into the teacher's folder where that may be done; else it offers
   * it as a download. In both cases the engine has it too. */
  write(path: string, content: string | Uint8Array<ArrayBuffer>): Promise<'written' | 'downloaded'>;
}

export type View = 'lesson' | 'folder' | 'marking' | 'guide';

/** What every part is given. */
export interface App {
  readonly engine: Engine;
  readonly session: Session;
  readonly folder: Folder;
  /** Says something where everybody sees it and a screen reader hears it. */
  say(text: string, kind?: 'done' | 'fault'): void;
  /** Offers a file to be saved. */
  download(name: string, content: string | Uint8Array<ArrayBuffer>, type?: string): void;
  /** Opens a PDF where it can be printed: in a tab of its own. */
  openPdf(name: string, bytes: Uint8Array<ArrayBuffer>): void;
  show(view: View): void;
  /** Opens a text in the lesson view; asks first where changes would be lost.
   * False: the teacher would rather stay. */
  openLesson(path: string, text: string): Promise<boolean>;
  /** Asks before something that cannot be undone. */
  confirm(question: string, yes: string): Promise<boolean>;
}

/** A part of the page: it fills `parent` and lives as long as the page. */
export type Part = (parent: HTMLElement, app: App) => void;
