// Several files in one, for src/engine/pack.ts to take apart; and gzip whose
// bytes depend on nothing but the content.

import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

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

/** files: [path, Buffer][] */
export function pack(files) {
  const rows = files.map(([path, bytes]) => ({ path, size: bytes.length }));
  const list = Buffer.from(JSON.stringify(rows));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(list.length);
  return Buffer.concat([length, list, ...files.map(([, bytes]) => bytes)]);
}

export function packFolder(folder) {
  return pack(filesIn(folder).map((path) => [path, readFileSync(join(folder, path))]));
}

/** Node writes no time into it; the byte that names the system is set, as zlib
 * fills it in by where it runs. */
export function squeeze(bytes) {
  const squeezed = gzipSync(bytes, { level: 9, memLevel: 9 });
  squeezed[9] = 255;
  return squeezed;
}
