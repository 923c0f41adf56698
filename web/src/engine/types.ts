/** What the module answers, as the rest of the page sees it.
 *
 * Places in a text are offsets in UTF-16 code units, from 0, as CodeMirror and
 * JavaScript strings count. Paths begin at the top folder: "/lesson.yaml".
 * Every call is a promise: a worker does the work, so typing never waits.
 */

export interface Range { from: number; to: number }
export interface Edit { from: number; to: number; insert: string }
/** Changes that belong together; edits of a file are by place, none overlap. */
export interface FileEdits { path: string; edits: Edit[] }

export interface Fix {
  /** What has changed then: "Ship is now ship". */
  label: string;
  /** It cannot change what the teacher meant. */
  certain: boolean;
  files: FileEdits[];
}

export type Severity = 'error' | 'warning' | 'note';

export interface Message {
  severity: Severity;
  /** As `explain` knows it. */
  name: string;
  path: string;
  /** None: the file as a whole. */
  range: Range | null;
  /** Line and column from 1, where there is a range. */
  line: number | null;
  column: number | null;
  /** Words of the file stand between backticks. */
  text: string;
  help: string;
  remarks: { path: string; range: Range | null; line: number | null; text: string }[];
  fixes: Fix[];
}

export interface HoverInfo { range: Range; lines: string[] }

export type CompletionKind =
  'key' | 'value' | 'pattern' | 'word' | 'sheet' | 'option' | 'file' | 'step';
export interface Offer {
  kind: CompletionKind;
  label: string;
  range: Range;
  text: string;
  detail: string;
  more: string;
}

export interface Action {
  title: string;
  files: FileEdits[];
  /** The message that it mends, an index into `messages`; -1: none. */
  message: number;
  certain: boolean;
}

export interface OutlinePart { name: string; detail: string; range: Range; nameRange: Range; parts: OutlinePart[] }
export interface Inlay { at: number; text: string; more: string }

export interface PageInfo {
  /** The sheet's name: "Sound boxes". */
  label: string;
  teacher: boolean;
  /** In points, 72 an inch. */
  width: number;
  height: number;
  /** The same for pages that look alike: only changed ones need to be drawn. */
  look: string;
}
export interface Pages {
  pages: PageInfo[];
  /** They are those of an earlier text, since this one has errors. */
  stale: boolean;
  /** The first of these errors, in words. */
  why: string;
}

/** A drawn page: rows from the top, a byte a pixel (0 is black), or where it has
 * colour three: red, green, blue. */
export interface Picture {
  width: number; height: number; colour: boolean; pixels: Uint8Array<ArrayBuffer>;
}

/** A page that is in sight, and how the screen has it. */
export interface Sight { page: number; dpi: number; /** What it shows; '': nothing. */ look: string }
export interface Drawn { page: number; dpi: number; look: string; picture: Picture }

export interface PlaceInFile { path: string; range: Range; line: number }

export interface NamedFile { name: string; bytes: Uint8Array<ArrayBuffer> }

/** Both PDFs of a lesson: "packet.pdf", "teacher.pdf"; none where there is an error. */
export interface Packets { files: NamedFile[]; learnerPages: number; teacherPages: number; errors: number }

/** A key of a lesson as a form shows it. */
export interface Field {
  key: string;
  present: boolean;
  /** Words with blanks between, or a sentence on each line; as it would be typed. */
  text: string;
  /** Whether it takes lines (sentences, notes) rather than words. */
  lines: boolean;
  /** False where the file has something there that a form cannot hold. */
  editable: boolean;
  range: Range | null;
}

export interface PatternInfo {
  /** As a lesson names it: "oa". */
  id: string;
  /** "oa as in boat" or the like. */
  name: string;
  family: string;
  /** Which words it is about: "bread", "not before r". */
  remark: string;
  /** What else teachers call it, parted by commas. */
  terms: string;
  rule: string;
}

export interface LayoutInfo { name: string; about: string }

export interface RunResult {
  /** 0 where all went well; 1: the files have faults; 2: the command was not understood; 3: the machine refused. */
  code: number;
  out: string;
  err: string;
  /** Files that were written or changed, by path. */
  written: string[];
}

export interface EngineInfo {
  version: string;
  /** Milliseconds. */
  unpacked: number;
  compiled: number;
  ready: number;
}

/** The text at hand: one worker that does nothing else. */
export interface Engine {
  readonly info: Promise<EngineInfo>;

  /** Files beside the lesson (sequence, class, records, pictures, other lessons). */
  putFile(path: string, content: string | Uint8Array): Promise<void>;
  removeFile(path: string): Promise<void>;
  readFile(path: string): Promise<Uint8Array<ArrayBuffer> | null>;
  /** All but what comes with Sheaf, in order. */
  listFiles(): Promise<string[]>;

  /** '' : as the layout says. */
  setPaper(paper: '' | 'letter' | 'a4'): Promise<void>;

  /** The text is open, or another now; hides the file of that name. */
  change(path: string, text: string): Promise<void>;
  close(path: string): Promise<void>;

  messages(path: string): Promise<Message[]>;
  hover(path: string, at: number): Promise<HoverInfo | null>;
  completions(path: string, at: number): Promise<Offer[]>;
  actions(path: string, from: number, to: number): Promise<Action[]>;
  outline(path: string): Promise<OutlinePart[]>;
  inlays(path: string, from: number, to: number): Promise<Inlay[]>;
  formatted(path: string): Promise<string>;

  pages(path: string): Promise<Pages>;
  draw(path: string, page: number, dpi: number): Promise<Picture>;
  /** The first of these that looks different now, drawn; null: all are right. So
   * a page can be asked for together with the text that may change it. */
  drawChanged(path: string, sights: readonly Sight[]): Promise<Drawn | null>;
  /** A picture that was shown, or never will be: its bytes take the next one. */
  giveBack(picture: Picture): void;
  /** In points from the top left corner. */
  atPoint(path: string, page: number, x: number, y: number): Promise<PlaceInFile | null>;
  pagesOf(path: string, from: number, to: number): Promise<number[]>;
  packets(path: string): Promise<Packets>;

  /** The lesson's keys in the order of a form. */
  form(path: string): Promise<Field[]>;
  /** What to change in the text so that the key says this; '' takes the key out. */
  formEdits(path: string, key: string, text: string): Promise<Edit[]>;

  patterns(): Promise<PatternInfo[]>;
  layouts(): Promise<LayoutInfo[]>;
  /** A first text of a lesson for a pattern (as the command `draft`). */
  draft(pattern: string): Promise<{ name: string; text: string }>;
  /** What a message means, with an example. */
  explain(name: string): Promise<string>;

  /** One of Sheaf's commands, as in ['mark', 'records', '--json'], over the
   * files put there. A second worker does it, so nothing waits for it. What it
   * writes can be read with `readFile`, and goes to no disk. */
  run(args: string[], input?: string): Promise<RunResult>;
}
