/** Several files in one, as the build packs what comes with Sheaf: a length of
 * four bytes (little end first), a list of paths and sizes, then the files one
 * after another. */
import { outOfPlanes } from './planes.js';

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

/** The files are views into `bytes`, not copies, and `bytes` is no pack any more
 * afterwards: tables are laid out again in it. */
export function unpack(bytes: ArrayBuffer): Packed {
  const length = new DataView(bytes).getUint32(0, true);
  const rows: unknown = JSON.parse(
    new TextDecoder().decode(new Uint8Array(bytes, 4, length)));
  if (!isRows(rows)) throw new Error('A packed file is not whole.');
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
