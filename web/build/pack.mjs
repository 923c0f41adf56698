// Several files in one, for src/engine/pack.ts to take apart; and gzip whose
// bytes depend on nothing but the content.

import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { inPlanes } from './planes.mjs';

/** In the order of their bytes, which is the same on every machine. */
export function inOrder(names) {
  return [...names].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
}

/** All files in a folder by path, with '/' and without the folder itself. */
export function filesIn(folder, below = '') {
  const found = [];
  for (const name of inOrder(readdirSync(join(folder, below)))) {
    const path = below ? `${below}/${name}` : name;
    if (statSync(join(folder, path)).isDirectory()) {
      found.push(...filesIn(folder, path));
    } else {
      found.push(path);
    }
  }
  return found;
}

/** files: [path, Buffer][]. With `tables`, what has tables of numbers in it is laid
 * out to be squeezed (planes.mjs). */
export function pack(files, { tables = false } = {}) {
  const rows = [];
  const bodies = [];
  for (const [path, content] of files) {
    const { bytes, kinds } = tables ? inPlanes(content) : { bytes: content, kinds: [] };
    rows.push({ path, size: bytes.length, ...(kinds.some(Boolean) ? { kinds } : {}) });
    bodies.push(bytes);
  }
  const list = Buffer.from(JSON.stringify(rows));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(list.length);
  return Buffer.concat([length, list, ...bodies]);
}

export function packFolder(folder) {
  return pack(filesIn(folder).map((path) => [path, readFileSync(join(folder, path))]));
}

/** gzip as small as libdeflate makes it, a twentieth smaller than zlib does. */
export function squeeze(bytes) {
  const { status, stdout, error } = spawnSync('libdeflate-gzip', ['-12', '-c'],
    { input: bytes, maxBuffer: 1 << 28 });
  if (error || status !== 0) {
    throw new Error('libdeflate-gzip is missing or has failed: run make web-deps');
  }
  // No day, and no name of a system.
  stdout.writeUInt32LE(0, 4);
  stdout[9] = 255;
  return stdout;
}
