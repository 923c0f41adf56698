// What the build packs, the page takes apart to the same bytes.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pack } from '../../build/pack.mjs';
import { inPlanes, kinds, laidOut } from '../../build/planes.mjs';
import { unpack } from '../../src/engine/pack.js';
import { outOfPlanes } from '../../src/engine/planes.js';

/** The same numbers every time, without a pattern. */
function noise(length: number): Buffer {
  const bytes = Buffer.alloc(length);
  let state = 12345;
  for (let i = 0; i < length; ++i) {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    bytes[i] = state >>> 16;
  }
  return bytes;
}
function table(rows: number): Buffer {
  const bytes = Buffer.alloc(rows * 8);
  for (let i = 0; i < rows; ++i) {
    bytes.writeUInt32LE(i * 37 + 100000, i * 8);
    bytes.writeUInt32LE(0xffffff00 + (i % 600) * 3 >>> 0, i * 8 + 4);
  }
  return bytes;
}

test('every way to lay out a block is undone, at every length', () => {
  for (const length of [0, 1, 2, 3, 7, 8, 9, 255, 4096, 65535, 65536]) {
    for (const content of [noise(length), table(8192).subarray(0, length)]) {
      kinds.forEach((kind, index) => {
        const made = Uint8Array.from(laidOut(content, kind));
        outOfPlanes(made, [index]);
        assert.ok(Buffer.from(made).equals(content), `kind ${index}, ${length} bytes`);
      });
    }
  }
});

test('a table is laid out otherwise, and a text is left alone', () => {
  assert.ok(inPlanes(table(20000)).kinds.some((kind: number) => kind !== 0));
  const text = Buffer.from('the fish is in the dish, and the ship is in the shop. '.repeat(3000));
  assert.ok(inPlanes(text).kinds.every((kind: number) => kind === 0));
});

test('files come back by their paths, with nothing between them', () => {
  const files: [string, Buffer][] = [['a/table.bin', table(20001)], ['empty', Buffer.alloc(0)],
    ['noise', noise(100001)], ['ü.txt', Buffer.from('sheaf')]];
  const packed = pack(files, { tables: true });
  const bytes = packed.buffer.slice(packed.byteOffset, packed.byteOffset + packed.length);
  const found = unpack(bytes as ArrayBuffer);
  assert.deepEqual([...found.keys()], files.map(([path]) => path));
  for (const [path, content] of files) {
    assert.ok(content.equals(Buffer.from(found.get(path) ?? [])), path);
  }
});
