/** What the module asks of a system: the part of WASI (preview 1) that a program
 * without a disk needs. Its files are in its own memory, so all that is left is
 * streams, a clock and nothing else; whatever else it asks is refused. */

const kBadFile = 8;
const kNotSupported = 52;

export class ProgramEnd extends Error {
  constructor(readonly code: number) { super(`the program ended with ${code}`); }
}

/** The streams of one instance. */
export class Streams {
  #out: Uint8Array[] = [];
  #err: Uint8Array[] = [];
  #input = new Uint8Array();
  #read = 0;

  /** Forgets what was said and gives another input. */
  begin(input: string): void {
    this.#out = [];
    this.#err = [];
    this.#input = new TextEncoder().encode(input);
    this.#read = 0;
  }
  get out(): string { return textOf(this.#out); }
  get err(): string { return textOf(this.#err); }

  write(stream: number, bytes: Uint8Array): void {
    (stream === 1 ? this.#out : this.#err).push(bytes);
  }
  read(most: number): Uint8Array {
    const part = this.#input.subarray(this.#read, this.#read + most);
    this.#read += part.length;
    return part;
  }
}

function textOf(parts: readonly Uint8Array[]): string {
  const decoder = new TextDecoder();
  let text = '';
  for (const part of parts) text += decoder.decode(part, { stream: true });
  return text + decoder.decode();
}

type Call = (...values: never[]) => number;

/** `memory` is known only once the module is there. */
export function wasiImports(streams: Streams, memory: () => ArrayBuffer):
    WebAssembly.ModuleImports {
  const view = () => new DataView(memory());
  // Each item: where the bytes are, and how many.
  const vectors = function* (at: number, count: number) {
    for (let i = 0; i < count; ++i) {
      const here = view();
      yield { at: here.getUint32(at + 8 * i, true),
        size: here.getUint32(at + 8 * i + 4, true) };
    }
  };
  const nothing = (count: number, size: number): number => {
    view().setUint32(count, 0, true);
    view().setUint32(size, 0, true);
    return 0;
  };
  const calls: Record<string, Call> = {
    args_sizes_get: nothing,
    environ_sizes_get: nothing,
    args_get: () => 0,
    environ_get: () => 0,
    clock_res_get: (_clock: number, result: number) => {
      view().setBigUint64(result, 1_000_000n, true);
      return 0;
    },
    // No page may depend on the time: it always is the same.
    clock_time_get: (_clock: number, _precision: bigint, result: number) => {
      view().setBigUint64(result, 0n, true);
      return 0;
    },
    random_get: (at: number, size: number) => {
      new Uint8Array(memory(), at, size).fill(0);
      return 0;
    },
    fd_write: (stream: number, at: number, count: number, written: number) => {
      if (stream !== 1 && stream !== 2) return kBadFile;
      let total = 0;
      for (const part of vectors(at, count)) {
        streams.write(stream, new Uint8Array(memory(), part.at, part.size).slice());
        total += part.size;
      }
      view().setUint32(written, total, true);
      return 0;
    },
    fd_read: (stream: number, at: number, count: number, got: number) => {
      if (stream !== 0) return kBadFile;
      let total = 0;
      for (const part of vectors(at, count)) {
        const bytes = streams.read(part.size);
        new Uint8Array(memory(), part.at, bytes.length).set(bytes);
        total += bytes.length;
        if (bytes.length < part.size) break;
      }
      view().setUint32(got, total, true);
      return 0;
    },
    // The three streams are like pipes: of an unknown kind, read or written in
    // order.
    fd_fdstat_get: (stream: number, at: number) => {
      if (stream > 2) return kBadFile;
      new Uint8Array(memory(), at, 24).fill(0);
      view().setBigUint64(at + 8, stream === 0 ? 2n : 64n, true);
      return 0;
    },
    fd_close: () => 0,
    // No folder is open.
    fd_prestat_get: () => kBadFile,
    sched_yield: () => 0,
    proc_exit: (code: number) => { throw new ProgramEnd(code); },
  };
  return new Proxy(calls, {
    get: (known, name) => known[String(name)] ?? (() => kNotSupported),
    has: () => true,
  }) as unknown as WebAssembly.ModuleImports;
}
