// Tables of numbers are laid out so that gzip finds more in them: the first bytes
// of all numbers, then the second ones, and so on, each number as the step from the
// one before. Whatever suits a block of a file best is written down beside it;
// src/engine/planes.ts undoes it.

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

/** About how many bits gzip would make of it. Not gzip itself: each version finds a
 * little more or less, and the same sources must give the same bytes. */
function weight(block) {
  const last = new Int32Array(1 << 15).fill(-1);
  const counts = new Uint32Array(256);
  let matches = 0;
  for (let at = 0; at < block.length;) {
    const three = block[at] | (block[at + 1] << 8) | (block[at + 2] << 16);
    const place = Math.imul(three, 0x9e3779b1) >>> 17;
    const before = last[place];
    last[place] = at;
    let same = 0;
    if (before >= 0 && at - before < 32768) {
      while (same < 258 && at + same < block.length && block[before + same] === block[at + same]) ++same;
    }
    if (same < 4) {
      counts[block[at]] += 1;
      at += 1;
    } else {
      matches += 1;
      at += same;
    }
  }
  const literals = counts.reduce((sum, count) => sum + count, 0);
  let bits = matches * 20;
  for (const count of counts) if (count > 0) bits += count * Math.log2(literals / count);
  return bits;
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
      return { made, index, bits: weight(made) + (index ? 4000 : 0) };
    });
    const best = tried.reduce((a, b) => (b.bits < a.bits ? b : a));
    chosen.push(best.index);
    blocks.push(best.made);
  }
  return { bytes: Buffer.concat(blocks), kinds: chosen };
}
