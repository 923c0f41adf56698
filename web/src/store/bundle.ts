/** What is kept, as one run of bytes: the names and sizes first, then the
 * files. All of it is sealed together, so not even the number of files or their
 * names can be read. */
import type { Bytes } from './sealing.js';

export interface KeptFile { path: string; bytes: Bytes }
export interface Kept {
  folderName: string;
  files: KeptFile[];
  /** The lesson that was open. */
  lesson: { path: string; text: string } | null;
  settings: Record<string, string>;
}

interface Index {
  folderName: string;
  files: { path: string; size: number }[];
  lesson: { path: string; text: string } | null;
  settings: Record<string, string>;
}

export function bundled(kept: Kept): Bytes {
  const index: Index = {
    folderName: kept.folderName,
    files: kept.files.map(({ path, bytes }) => ({ path, size: bytes.length })),
    lesson: kept.lesson, settings: kept.settings,
  };
  const head = new TextEncoder().encode(JSON.stringify(index));
  const all = new Uint8Array(
    4 + head.length + kept.files.reduce((sum, file) => sum + file.bytes.length, 0));
  new DataView(all.buffer).setUint32(0, head.length);
  all.set(head, 4);
  let at = 4 + head.length;
  for (const { bytes } of kept.files) {
    all.set(bytes, at);
    at += bytes.length;
  }
  return all;
}

/** The reverse; null where the bytes are none of ours. */
export function unbundled(all: Bytes): Kept | null {
  if (all.length < 4) return null;
  const length = new DataView(all.buffer, all.byteOffset).getUint32(0);
  if (4 + length > all.length) return null;
  let index: Partial<Index> | null;
  try {
    index = JSON.parse(new TextDecoder().decode(all.subarray(4, 4 + length))) as Index | null;
  } catch {
    return null;
  }
  if (index === null || !Array.isArray(index.files)) return null;
  const files: KeptFile[] = [];
  let at = 4 + length;
  for (const { path, size } of index.files) {
    if (typeof path !== 'string' || !Number.isInteger(size) || at + size > all.length) return null;
    files.push({ path, bytes: all.slice(at, at + size) });
    at += size;
  }
  return { folderName: index.folderName ?? '', files, lesson: index.lesson ?? null,
    settings: index.settings ?? {} };
}
