/** The engine as the page has it: each call becomes a message to a worker and a
 * promise. One worker serves the text that is being written; a second one, made
 * when it is first needed, runs commands, which may take their time. */

import { findPart, startWorker, whole } from './boot.js';
import { inBrowserWords } from './browser_words.js';
import { kMachineFault, type Answer, type Run } from './instance.js';
import { Line } from './line.js';
import type { Loaded, Parts } from './part.js';
import type { Call } from './protocol.js';
import type {
  Action, Drawn, Edit, Engine, EngineInfo, Field, HoverInfo, Inlay, LayoutInfo, Message, Offer,
  OutlinePart, Packets, Pages, PatternInfo, Picture, PlaceInFile, RunResult,
  Sight,
} from './types.js';

/** The worker for commands goes when it had nothing to do for so long (ms): its
 * forty megabytes are a third of the page's. */
const kIdle = 2_000;

/** Half a pair of UTF-16 has no place in a file. */
function wellFormed(text: string): string {
  return text.replace(
    /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, '\uFFFD');
}

function bytesOf(content: string | Uint8Array): Uint8Array<ArrayBuffer> {
  return typeof content === 'string' ? new TextEncoder().encode(wellFormed(content))
    : content.slice() as Uint8Array<ArrayBuffer>;
}

/** Parts are read by a worker that ends when it is done: what it leaves behind,
 * some thirty megabytes, goes with it. */
async function load(): Promise<Loaded> {
  const line = new Line(await startWorker('sheaf-load'));
  try {
    const module = findPart('module');
    const data = findPart('data');
    return await line.call({ call: 'load', module, data },
      [module, data].filter((part) => part instanceof ArrayBuffer)) as Loaded;
  } finally {
    line.end();
  }
}

class WorkerEngine implements Engine {
  readonly info: Promise<EngineInfo>;
  readonly #files = new Map<string, Uint8Array<ArrayBuffer>>();
  readonly #parts: Promise<Parts>;
  readonly #texts: Promise<Line>;
  #runs: Promise<Line> | null = null;
  #idling: ReturnType<typeof setTimeout> | undefined;
  /** Lists that never change. */
  #patterns: Promise<PatternInfo[]> | null = null;
  #layouts: Promise<LayoutInfo[]> | null = null;

  constructor() {
    const begin = performance.now();
    const loaded = whole(load());
    this.#parts = loaded.then(({ module, data }) => ({ module, data }));
    this.#texts = this.#line('text');
    this.info = Promise.all([loaded, this.#texts]).then(async ([{ unpacked, compiled }]) => ({
      unpacked, compiled, ready: performance.now() - begin,
      version: await this.#json<string>({ do: 'version' }),
    }));
    // Whoever waits for an answer is told; nobody has to wait for this.
    this.info.catch(() => undefined);
  }

  async #line(name: string): Promise<Line> {
    const worker = startWorker(`sheaf-${name}`);
    const { module, data } = await this.#parts;
    const line = new Line(await worker);
    await line.call({ call: 'start', module, data });
    for (const [path, bytes] of this.#files) await line.call({ call: 'put', path, bytes });
    return line;
  }

  async #everywhere(call: Call): Promise<void> {
    await Promise.all([this.#texts, this.#runs].map(async (line) => (await line)?.call(call)));
  }

  async putFile(path: string, content: string | Uint8Array): Promise<void> {
    const bytes = bytesOf(content);
    this.#files.set(path, bytes);
    await this.#everywhere({ call: 'put', path, bytes });
  }
  async removeFile(path: string): Promise<void> {
    this.#files.delete(path);
    await this.#everywhere({ call: 'remove', path });
  }
  readFile(path: string): Promise<Uint8Array<ArrayBuffer> | null> {
    return Promise.resolve(this.#files.get(path)?.slice() ?? null);
  }
  listFiles(): Promise<string[]> {
    return Promise.resolve([...this.#files.keys()].sort());
  }

  async #ask(request: Record<string, unknown>): Promise<Answer> {
    return await (await this.#texts).call({ call: 'ask', request }) as Answer;
  }
  async #json<Value>(request: Record<string, unknown>): Promise<Value> {
    return (await this.#ask(request)).json as Value;
  }

  async setPaper(paper: '' | 'letter' | 'a4'): Promise<void> {
    await this.#ask({ do: 'options', paper });
  }
  async change(path: string, text: string): Promise<void> {
    await this.#ask({ do: 'change', path, text: wellFormed(text) });
  }
  async close(path: string): Promise<void> { await this.#ask({ do: 'close', path }); }

  async messages(path: string): Promise<Message[]> {
    const messages = await this.#json<Message[]>({ do: 'messages', path });
    return messages.map((message) => ({ ...message,
      text: inBrowserWords(message.text), help: inBrowserWords(message.help) }));
  }
  hover(path: string, at: number) { return this.#json<HoverInfo | null>({ do: 'hover', path, at }); }
  completions(path: string, at: number) {
    return this.#json<Offer[]>({ do: 'completions', path, at });
  }
  actions(path: string, from: number, to: number) {
    return this.#json<Action[]>({ do: 'actions', path, from, to });
  }
  outline(path: string) { return this.#json<OutlinePart[]>({ do: 'outline', path }); }
  inlays(path: string, from: number, to: number) {
    return this.#json<Inlay[]>({ do: 'inlays', path, from, to });
  }
  formatted(path: string) { return this.#json<string>({ do: 'formatted', path }); }
  pages(path: string) { return this.#json<Pages>({ do: 'pages', path }); }

  async draw(path: string, page: number, dpi: number): Promise<Picture> {
    const { json, parts } = await this.#ask({ do: 'draw', path, page, dpi });
    const [pixels] = parts;
    if (!pixels) throw new Error('The page could not be drawn.');
    return { ...json as Omit<Picture, 'pixels'>, pixels };
  }
  async drawChanged(path: string, sights: readonly Sight[]): Promise<Drawn | null> {
    const answer = await (await this.#texts).call({ call: 'draw-changed', path, sights });
    if (answer === null) return null;
    const { json, parts: [pixels] } = answer as Answer;
    const { width, height, colour, ...drawn } =
      json as Omit<Drawn, 'picture'> & Omit<Picture, 'pixels'>;
    if (!pixels) throw new Error('The page could not be drawn.');
    return { ...drawn, picture: { width, height, colour, pixels } };
  }
  giveBack({ pixels: { buffer: bytes } }: Picture): void {
    void this.#texts.then((line) => line.call({ call: 'room', bytes }, [bytes]))
      .catch(() => undefined);
  }
  atPoint(path: string, page: number, x: number, y: number) {
    return this.#json<PlaceInFile | null>({ do: 'at-point', path, page, x, y });
  }
  pagesOf(path: string, from: number, to: number) {
    return this.#json<number[]>({ do: 'pages-of', path, from, to });
  }
  async packets(path: string): Promise<Packets> {
    const { json, parts } = await this.#ask({ do: 'packets', path });
    const made = json as Omit<Packets, 'files'> & { files: string[] };
    return { ...made,
      files: made.files.map((name, i) => ({ name, bytes: parts[i] ?? new Uint8Array() })) };
  }

  form(path: string) { return this.#json<Field[]>({ do: 'form', path }); }
  formEdits(path: string, key: string, text: string) {
    return this.#json<Edit[]>({ do: 'form-edits', path, key, text: wellFormed(text) });
  }

  patterns(): Promise<PatternInfo[]> {
    return this.#patterns ??= this.#json<PatternInfo[]>({ do: 'patterns' });
  }
  layouts(): Promise<LayoutInfo[]> {
    return this.#layouts ??= this.#json<LayoutInfo[]>({ do: 'layouts' });
  }

  async draft(pattern: string): Promise<{ name: string; text: string }> {
    let { code, err, files } = await this.#run(['draft', pattern]);
    // A lesson of that name is among the teacher's files.
    for (let number = 2; code === kMachineFault && number < 100; ++number) {
      const name = `${pattern.replace(/[^a-z0-9]+/gi, '-')}-${number}.yaml`;
      if (this.#files.has(`/${name}`)) continue;
      ({ code, err, files } = await this.#run(['draft', pattern, '--file', name]));
    }
    const [made] = files;
    if (code !== 0 || !made) throw new Error(err.trim());
    // Only editors on a machine need to know where its rules are.
    const text = new TextDecoder().decode(made.bytes)
      .replace(/^# yaml-language-server:.*\n/m, '');
    return { name: made.path.replace(/^\//, ''), text: inBrowserWords(text) };
  }
  async explain(name: string): Promise<string> {
    return inBrowserWords((await this.run(['explain', name])).out);
  }

  async #run(args: string[], input = '') {
    clearTimeout(this.#idling);
    this.#runs ??= this.#line('command');
    const runs = this.#runs;
    try {
      const { written, ...run } = await (await runs).call(
        { call: 'run', args, input: wellFormed(input) }) as Run;
      return { ...run, files: written };
    } finally {
      this.#endWhenIdle(runs);
    }
  }

  #endWhenIdle(runs: Promise<Line>): void {
    clearTimeout(this.#idling);
    this.#idling = setTimeout(() => {
      void runs.then((line) => {
        // Files may be under way to it.
        if (!line.idle) return this.#endWhenIdle(runs);
        if (this.#runs === runs) this.#runs = null;
        line.end();
      }, () => undefined);
    }, kIdle);
  }
  async run(args: string[], input = ''): Promise<RunResult> {
    const { code, out, err, files, gone } = await this.#run(args, input);
    for (const { path, bytes } of files) await this.putFile(path, bytes);
    for (const path of gone) await this.removeFile(path);
    return { code, out: inBrowserWords(out), err: inBrowserWords(err),
      written: files.map((file) => file.path) };
  }
}

export function createEngine(): Engine { return new WorkerEngine(); }
