/** A drawn page as the module gives it, one byte a pixel or three, and as a screen
 * wants it: red, green, blue and how much of them, which is all. */

import type { Picture } from './types.js';

/** Rows that are made ready at once: all of a page would be four times what it is
 * kept in. */
const kRows = 64;

/** `pixels`: as many as the bytes are for, or more. Machines that browsers run on
 * keep the lowest byte of a number first. */
export function forScreen(bytes: Uint8Array, colour: boolean, pixels: Uint32Array): void {
  if (!colour) {
    for (let i = 0; i < bytes.length; ++i) pixels[i] = 0xff000000 | ((bytes[i] ?? 0) * 0x010101);
    return;
  }
  for (let i = 0, at = 0; at < bytes.length; ++i, at += 3) {
    pixels[i] = 0xff000000 | ((bytes[at + 2] ?? 0) << 16) | ((bytes[at + 1] ?? 0) << 8) |
      (bytes[at] ?? 0);
  }
}

/** The rows that were made ready last, for pictures as wide. */
let rows: ImageData | null = null;

/** Puts a picture where the pen begins. */
export function paint(pen: CanvasRenderingContext2D, picture: Picture): void {
  const { width, height, colour, pixels } = picture;
  if (rows?.width !== width) rows = new ImageData(width, kRows);
  const ready = new Uint32Array(rows.data.buffer);
  const row = width * (colour ? 3 : 1);
  for (let top = 0; top < height; top += kRows) {
    const count = Math.min(kRows, height - top);
    forScreen(pixels.subarray(top * row, (top + count) * row), colour, ready);
    pen.putImageData(rows, 0, top, 0, 0, width, count);
  }
}
