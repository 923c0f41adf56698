/** Several files in one, as the build packs what comes with Sheaf: a length of
 * four bytes (little end first), a list of paths and sizes, then the files one
 * after another. */

export type Packed = Map<string, Uint8Array<ArrayBuffer>>;

interface Row { path: string; size: number }

function isRows(value: unknown): value is Row[] {
  return Array.isArray(value) && value.every((row: unknown) =>
    typeof row === 'object' && row !== null && 'path' in row && 'size' in row &&
    typeof row.path === 'string' && typeof row.size === 'number');
}

/** The files are views into `bytes`, not copies. */
export function unpack(bytes: ArrayBuffer): Packed {
  const length = new DataView(bytes).getUint32(0, true);
  const rows: unknown = JSON.parse(
    new TextDecoder().decode(new Uint8Array(bytes, 4, length)));
  if (!isRows(rows)) throw new Error('A packed file is not whole.');
  const files: Packed = new Map();
  let at = 4 + length;
  for (const { path, size } of rows) {
    files.set(path, new Uint8Array(bytes, at, size));
    at += size;
  }
  return files;
}
