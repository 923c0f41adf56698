/** One run of the module: its memory and the calls into it (web/wasm/exports.cpp
 * says what each does). The same in a worker and in Node. */

import { unpackInto, type Packed, type Place } from './pack.js';
import { Streams, wasiImports } from './wasi.js';

export const kShipped = '/.sheaf/share/sheaf/';
/** What a machine refuses, as the command line says it. */
export const kMachineFault = 3;

interface Exports extends WebAssembly.Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  sheaf_alloc(size: number): number;
  sheaf_free(at: number): void;
  sheaf_room(size: number): number;
  sheaf_put(path: number, pathSize: number): number;
  sheaf_remove(path: number, size: number): number;
  sheaf_ask(request: number, size: number): number;
  sheaf_run(request: number, size: number): number;
  sheaf_answer(): number;
  sheaf_answer_size(): number;
  sheaf_parts(): number;
  sheaf_part(index: number): number;
  sheaf_part_size(index: number): number;
}

export interface Answer { json: unknown; parts: Uint8Array<ArrayBuffer>[] }
export interface Run {
  code: number;
  out: string;
  err: string;
  written: { path: string; bytes: Uint8Array<ArrayBuffer> }[];
  gone: string[];
}

/** The module said no. `spent`: it had to break off, and what it had begun still
 * lies about in its memory (web/wasm/exceptions.cmake). */
export class Refusal extends Error {
  constructor(message: string, readonly spent = false) { super(message); }
}

export class Instance {
  readonly #streams: Streams;
  readonly #exports: Exports;
  readonly #encoder = new TextEncoder();
  readonly #decoder = new TextDecoder();

  private constructor(streams: Streams, exports: Exports) {
    this.#streams = streams;
    this.#exports = exports;
  }

  /** A fresh one with what comes with Sheaf. A blob is read without a copy of it. */
  static async start(module: WebAssembly.Module, shipped: Packed | Blob): Promise<Instance> {
    const streams = new Streams();
    let memory: WebAssembly.Memory | null = null;
    const imports = wasiImports(streams, () => (memory as WebAssembly.Memory).buffer as ArrayBuffer);
    // What the linker left without a name of WASI is never called.
    const made = await WebAssembly.instantiate(module, {
      wasi_snapshot_preview1: imports,
    });
    const exports = made.exports as Exports;
    memory = exports.memory;
    exports._initialize();
    const instance = new Instance(streams, exports);
    if (shipped instanceof Blob) {
      await unpackInto(shipped, (path, size) => instance.#place(kShipped + path, size));
    } else {
      for (const [path, bytes] of shipped) instance.put(kShipped + path, bytes);
    }
    return instance;
  }

  /** Bytes that it has taken; it never gives any back. */
  get size(): number { return this.#exports.memory.buffer.byteLength; }

  #lend<Result>(bytes: Uint8Array, work: (at: number) => Result): Result {
    const at = this.#exports.sheaf_alloc(bytes.length);
    if (at === 0) throw new Refusal('There is not enough memory.', true);
    try {
      new Uint8Array(this.#exports.memory.buffer, at, bytes.length).set(bytes);
      return work(at);
    } finally {
      this.#exports.sheaf_free(at);
    }
  }

  #view(at: number, size: number): Uint8Array<ArrayBuffer> {
    return new Uint8Array(this.#exports.memory.buffer as ArrayBuffer, at, size);
  }

  /** Parts are views that hold until the next call. */
  #answerInPlace(): Answer {
    const { sheaf_answer, sheaf_answer_size, sheaf_parts } = this.#exports;
    const text = this.#decoder.decode(this.#view(sheaf_answer(), sheaf_answer_size()));
    const parts: Uint8Array<ArrayBuffer>[] = [];
    for (let i = 0; i < sheaf_parts(); ++i) {
      parts.push(this.#view(this.#exports.sheaf_part(i), this.#exports.sheaf_part_size(i)));
    }
    const json: unknown = text === '' ? null : JSON.parse(text);
    if (typeof json === 'object' && json !== null && 'fault' in json) {
      throw new Refusal(String(json.fault), 'spent' in json);
    }
    return { json, parts };
  }

  #answer(): Answer {
    const { json, parts } = this.#answerInPlace();
    return { json, parts: parts.map((part) => part.slice()) };
  }

  put(path: string, bytes: Uint8Array): void {
    const place = this.#place(path, bytes.length);
    place.write(bytes);
    place.done();
  }

  #place(path: string, size: number): Place {
    let next = this.#exports.sheaf_room(size);
    if (next === 0) throw new Refusal('There is not enough memory.', true);
    return {
      write: (bytes) => {
        new Uint8Array(this.#exports.memory.buffer, next, bytes.length).set(bytes);
        next += bytes.length;
      },
      done: () => {
        const name = this.#encoder.encode(path);
        const code = this.#lend(name, (at) => this.#exports.sheaf_put(at, name.length));
        if (code !== 0) this.#answer();
      },
    };
  }

  remove(path: string): void {
    const name = this.#encoder.encode(path);
    this.#lend(name, (at) => this.#exports.sheaf_remove(at, name.length));
  }

  #request(request: unknown): void {
    const bytes = this.#encoder.encode(JSON.stringify(request));
    this.#lend(bytes, (at) => this.#exports.sheaf_ask(at, bytes.length));
  }

  ask(request: unknown): Answer {
    this.#request(request);
    return this.#answer();
  }

  /** A page; `room`: where its pixels go if that is as long. */
  draw(request: unknown, room?: ArrayBuffer): Answer {
    this.#request(request);
    const { json, parts: [page] } = this.#answerInPlace();
    if (!page) throw new Refusal('The page could not be drawn.');
    const pixels = new Uint8Array(
      room?.byteLength === page.length ? room : new ArrayBuffer(page.length));
    pixels.set(page);
    return { json, parts: [pixels] };
  }

  run(args: readonly string[], input = ''): Run {
    this.#streams.begin(input);
    const bytes = this.#encoder.encode(JSON.stringify(args));
    const code = this.#lend(bytes, (at) => this.#exports.sheaf_run(at, bytes.length));
    const { out, err } = this.#streams;
    const { json, parts } = this.#answer();
    const { written = [], gone = [] } =
      (json ?? {}) as { written?: string[]; gone?: string[] };
    return { code, out, err, gone,
      written: written.map((path, i) => ({ path, bytes: parts[i] ?? new Uint8Array() })) };
  }
}
