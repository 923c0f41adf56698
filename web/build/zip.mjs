// A zip of a folder: the same bytes for the same files, whatever the day.

import { readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { crc32Of } from './crc.mjs';
import { deflateRawSync } from 'node:zlib';
import { filesIn } from './pack.mjs';

// 1 January 1980, the first day that the format knows.
const noDay = 0x21;

function header(signature, fields) {
  const bytes = Buffer.alloc(4 + fields.reduce((sum, [, size]) => sum + size, 0));
  bytes.writeUInt32LE(signature, 0);
  let at = 4;
  for (const [value, size] of fields) {
    bytes.writeUIntLE(value, at, size);
    at += size;
  }
  return bytes;
}

/** Each path stands inside a folder of this name. */
export function zipOf(folder, top) {
  const local = [];
  const central = [];
  let offset = 0;
  const paths = filesIn(folder);
  for (const path of paths) {
    const content = readFileSync(join(folder, path));
    const deflated = deflateRawSync(content, { level: 9 });
    const stored = deflated.length >= content.length;
    const body = stored ? content : deflated;
    const name = Buffer.from(`${top}/${path}`);
    // Bit 11: the name is UTF-8.
    const common = [[20, 2], [0x800, 2], [stored ? 0 : 8, 2], [0, 2], [noDay, 2],
      [crc32Of(content), 4], [body.length, 4], [content.length, 4],
      [name.length, 2], [0, 2]];
    const head = header(0x04034b50, common);
    local.push(head, name, body);
    // Made by Unix, so that the rights (a file all may read) are taken from here.
    central.push(header(0x02014b50, [[0x0314, 2], ...common, [0, 2], [0, 2], [0, 2],
      [0o100644 * 65536, 4], [offset, 4]]), name);
    offset += head.length + name.length + body.length;
  }
  const size = central.reduce((sum, part) => sum + part.length, 0);
  return Buffer.concat([...local, ...central, header(0x06054b50, [[0, 2], [0, 2],
    [paths.length, 2], [paths.length, 2], [size, 4], [offset, 4], [0, 2]])]);
}

const [folder, target] = process.argv.slice(2);
const made = zipOf(folder, basename(target, '.zip'));
writeFileSync(target, made);
console.log(`${target}: ${(made.length / 1e6).toFixed(2)} MB`);
