/** Undoes what build/planes.mjs did to tables of numbers so that they pack well. */

export const blockSize = 65536;

interface Kind { width: number; row: number; steps: boolean }

/** As in build/planes.mjs, in the same order. */
const kinds: (Kind | null)[] = [
  null,
  { width: 1, row: 2, steps: false },
  { width: 1, row: 4, steps: false },
  { width: 1, row: 8, steps: false },
  { width: 2, row: 1, steps: true },
  { width: 2, row: 4, steps: true },
  { width: 4, row: 1, steps: true },
  { width: 4, row: 2, steps: true },
];

/** As it was before; kept, since each table has a hundred blocks. */
const before = new Uint8Array(blockSize);

function rowsAgain(block: Uint8Array, size: number): void {
  before.set(block);
  const planes = before;
  const rows = Math.floor(block.length / size);
  for (let plane = 0; plane < size; ++plane) {
    for (let i = 0, from = plane * rows, to = plane; i < rows; ++i, ++from, to += size) {
      block[to] = planes[from] ?? 0;
    }
  }
}

function sumsAgain(block: Uint8Array, { width, row }: Kind): void {
  const above = width * row;
  for (let at = above; at + width <= block.length; at += width) {
    let carried = 0;
    for (let i = at; i < at + width; ++i) {
      const sum = (block[i] ?? 0) + (block[i - above] ?? 0) + carried;
      block[i] = sum;
      carried = sum > 255 ? 1 : 0;
    }
  }
}

/** In place; a whole block of a file, or its last. */
export function blockOutOfPlanes(block: Uint8Array, chosen: number): void {
  const kind = kinds[chosen];
  if (!kind) return;
  rowsAgain(block, kind.width * kind.row);
  if (kind.steps) sumsAgain(block, kind);
}

/** In place. `chosen` has a kind for each block of the file. */
export function outOfPlanes(bytes: Uint8Array, chosen: readonly number[]): void {
  chosen.forEach((index, number) => {
    blockOutOfPlanes(bytes.subarray(number * blockSize, (number + 1) * blockSize), index);
  });
}
