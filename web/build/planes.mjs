// Tables of numbers are laid out so that gzip finds more in them: the first bytes
// of all numbers, then the second ones, and so on, each number as the step from the
// one before. Whatever suits a block of a file best is written down beside it;
// src/engine/planes.ts undoes it.

import { gzipSync } from 'node:zlib';

export const blockSize = 65536;

/** width: bytes of a number, little end first; row: numbers in a row of the table;
 * steps: whether each is written as the step from the one in the row above. */
export const kinds = [
  null,
  { width: 1, row: 2, steps: false },
  { width: 1, row: 4, steps: false },
  { width: 1, row: 8, steps: false },
  { width: 2, row: 1, steps: true },
  { width: 2, row: 4, steps: true },
  { width: 4, row: 1, steps: true },
  { width: 4, row: 2, steps: true },
];

function stepsOf(block, { width, row }) {
  const made = Buffer.from(block);
  const most = 2 ** (8 * width);
  for (let at = block.length - width - (block.length % width); at >= width * row; at -= width) {
    const step = block.readUIntLE(at, width) - block.readUIntLE(at - width * row, width);
    made.writeUIntLE((step + most) % most, at, width);
  }
  return made;
}

function planesOf(block, size) {
  const made = Buffer.from(block);
  const rows = Math.floor(block.length / size);
  for (let plane = 0; plane < size; ++plane) {
    for (let i = 0; i < rows; ++i) made[plane * rows + i] = block[i * size + plane];
  }
  return made;
}

export function laidOut(block, kind) {
  if (!kind) return block;
  return planesOf(kind.steps ? stepsOf(block, kind) : block, kind.width * kind.row);
}

/** The bytes laid out, and the kind of each block (indices into `kinds`). */
export function inPlanes(bytes) {
  const chosen = [];
  const blocks = [];
  for (let at = 0; at < bytes.length; at += blockSize) {
    const block = bytes.subarray(at, at + blockSize);
    const tried = kinds.map((kind, index) => {
      const made = laidOut(block, kind);
      // What another order costs beyond this block: text before it is no help.
      return { made, index, size: gzipSync(made, { level: 6 }).length + (index ? 400 : 0) };
    });
    const best = tried.reduce((a, b) => (b.size < a.size ? b : a));
    chosen.push(best.index);
    blocks.push(best.made);
  }
  return { bytes: Buffer.concat(blocks), kinds: chosen };
}
