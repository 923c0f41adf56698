/** Several files in one, as the build packs what comes with Sheaf: a length of
 * four bytes (little end first), a list of paths and sizes, then the files one
 * after another. */
import { blockOutOfPlanes, blockSize, outOfPlanes } from './planes.js';

export type Packed = Map<string, Uint8Array<ArrayBuffer>>;

interface Row {
  path: string;
  size: number;
  /** How its blocks are laid out (planes.ts); none: as they are. */
  kinds?: number[];
}

function isRows(value: unknown): value is Row[] {
  return Array.isArray(value) && value.every((row: unknown) =>
    typeof row === 'object' && row !== null && 'path' in row && 'size' in row &&
    typeof row.path === 'string' && typeof row.size === 'number');
}

function rowsOf(bytes: Uint8Array): Row[] {
  const rows: unknown = JSON.parse(new TextDecoder().decode(bytes));
  if (!isRows(rows)) throw new Error('A packed file is not whole.');
  return rows;
}

/** The files are views into `bytes`, not copies, and `bytes` is no pack any more
 * afterwards: tables are laid out again in it. */
export function unpack(bytes: ArrayBuffer): Packed {
  const length = new DataView(bytes).getUint32(0, true);
  const rows = rowsOf(new Uint8Array(bytes, 4, length));
  const files: Packed = new Map();
  let at = 4 + length;
  for (const { path, size, kinds } of rows) {
    const file = new Uint8Array(bytes, at, size);
    if (kinds) outOfPlanes(file, kinds);
    files.set(path, file);
    at += size;
  }
  return files;
}

/** Where a file of a pack goes, part by part; what is written is copied. */
export interface Place {
  write(bytes: Uint8Array): void;
  /** All of it is there. */
  done(): void;
}

/** Reads into one buffer again and again, where the browser can do that: chunks
 * that it makes itself stay with the page long after they were used. */
class Reader {
  readonly #into: ReadableStreamBYOBReader | null = null;
  readonly #chunks: ReadableStreamDefaultReader<Uint8Array<ArrayBuffer>> | null = null;
  #buffer = new ArrayBuffer(blockSize);
  #rest = new Uint8Array();

  constructor(stream: ReadableStream<Uint8Array<ArrayBuffer>>) {
    try {
      this.#into = stream.getReader({ mode: 'byob' });
    } catch {
      this.#chunks = stream.getReader();
    }
  }

  async #some(at: number, most: number): Promise<number> {
    if (this.#into) {
      const { value } = await this.#into.read(new Uint8Array(this.#buffer, at, most));
      if (value) this.#buffer = value.buffer as ArrayBuffer;
      return value?.length ?? 0;
    }
    if (this.#rest.length === 0) {
      const { value } = await (this.#chunks as ReadableStreamDefaultReader<Uint8Array<ArrayBuffer>>).read();
      this.#rest = value ?? new Uint8Array();
    }
    const some = this.#rest.subarray(0, most);
    new Uint8Array(this.#buffer).set(some, at);
    this.#rest = this.#rest.subarray(some.length);
    return some.length;
  }

  /** At most a block; it holds until the next is read. */
  async read(size: number): Promise<Uint8Array<ArrayBuffer>> {
    let read = 0;
    while (read < size) {
      const some = await this.#some(read, size - read);
      if (some === 0) throw new Error('A packed file is not whole.');
      read += some;
    }
    return new Uint8Array(this.#buffer, 0, size);
  }
}

/** Gives each file to its place without ever holding more than a block of it. */
export async function unpackInto(packed: { stream(): ReadableStream<Uint8Array<ArrayBuffer>> },
                                 place: (path: string, size: number) => Place): Promise<void> {
  const reader = new Reader(packed.stream());
  const length = new DataView((await reader.read(4)).slice().buffer).getUint32(0, true);
  const list = new Uint8Array(length);
  for (let at = 0; at < length; at += blockSize) {
    list.set(await reader.read(Math.min(blockSize, length - at)), at);
  }
  for (const { path, size, kinds } of rowsOf(list)) {
    const file = place(path, size);
    for (let at = 0; at < size; at += blockSize) {
      const block = await reader.read(Math.min(blockSize, size - at));
      blockOutOfPlanes(block, kinds?.[at / blockSize] ?? 0);
      file.write(block);
    }
    file.done();
  }
}
