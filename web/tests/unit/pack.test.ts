// What the build packs, the page takes apart to the same bytes.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pack } from '../../build/pack.mjs';
import { inPlanes, kinds, laidOut } from '../../build/planes.mjs';
import { unpack, unpackInto } from '../../src/engine/pack.js';
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

const files: [string, Buffer][] = [['a/table.bin', table(20001)], ['empty', Buffer.alloc(0)],
  ['noise', noise(100001)], ['ü.txt', Buffer.from('sheaf')]];

function assertSame(found: ReadonlyMap<string, Uint8Array>): void {
  assert.deepEqual([...found.keys()], files.map(([path]) => path));
  for (const [path, content] of files) {
    assert.ok(content.equals(Buffer.from(found.get(path) ?? [])), path);
  }
}

test('files come back by their paths, with nothing between them', () => {
  const packed = pack(files, { tables: true });
  const bytes = packed.buffer.slice(packed.byteOffset, packed.byteOffset + packed.length);
  assertSame(unpack(bytes as ArrayBuffer));
});

/** All that was written to each place, once it was done. */
async function placed(packed: Parameters<typeof unpackInto>[0]): Promise<Map<string, Uint8Array>> {
  const found = new Map<string, Uint8Array>();
  await unpackInto(packed, (path, size) => {
    const parts: Buffer[] = [];
    return {
      write(bytes) { parts.push(Buffer.from(bytes)); },
      done() {
        const all = Buffer.concat(parts);
        assert.equal(all.length, size, path);
        found.set(path, all);
      },
    };
  });
  return found;
}

/** As a browser reads that fills no buffer of others. */
const inChunks = (bytes: Uint8Array, size: number) => ({
  stream: () => new ReadableStream<Uint8Array<ArrayBuffer>>({
    start(control) {
      for (let at = 0; at < bytes.length; at += size) control.enqueue(Uint8Array.from(bytes.subarray(at, at + size)));
      control.close();
    },
  }),
});

test('they come back block by block too, whatever the browser hands out', async () => {
  const packed = pack(files, { tables: true });
  assertSame(await placed(new Blob([Uint8Array.from(packed)])));
  for (const size of [1000, 65536, 70001, packed.length]) {
    assertSame(await placed(inChunks(packed, size)));
  }
});

test('a pack that ends early is no pack', async () => {
  const packed = pack(files, { tables: true });
  for (const whole of [3, 20, packed.length - 1]) {
    const bytes = Uint8Array.from(packed.subarray(0, whole));
    await assert.rejects(placed(new Blob([bytes])), /not whole/);
    await assert.rejects(placed(inChunks(bytes, 1000)), /not whole/);
  }
});
