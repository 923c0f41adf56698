/** Pixels as the module gives them and as a screen wants them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { forScreen, paint } from '../../src/engine/pixels.js';

const screen = (bytes: number[], colour: boolean, pixels: number): number[] => {
  const into = new ArrayBuffer(pixels * 4);
  forScreen(new Uint8Array(bytes), colour, new Uint32Array(into));
  return [...new Uint8Array(into)];
};

test('a grey pixel is as much red as green as blue, and nothing shines through', () => {
  assert.deepEqual(screen([0, 128, 255], false, 3),
    [0, 0, 0, 255, 128, 128, 128, 255, 255, 255, 255, 255]);
});

test('a coloured pixel keeps its order', () => {
  assert.deepEqual(screen([1, 2, 3, 250, 251, 252], true, 2), [1, 2, 3, 255, 250, 251, 252, 255]);
});

test('what was in the room before is overwritten', () => {
  const into = new ArrayBuffer(4);
  new Uint8Array(into).fill(7);
  forScreen(new Uint8Array([9]), false, new Uint32Array(into));
  assert.deepEqual([...new Uint8Array(into)], [9, 9, 9, 255]);
});

test('a picture is painted whole, some rows at a time', () => {
  globalThis.ImageData = class {
    readonly data: Uint8ClampedArray;
    constructor(readonly width: number, readonly height: number) {
      this.data = new Uint8ClampedArray(width * height * 4);
    }
  } as unknown as typeof ImageData;
  for (const [colour, height] of [[false, 150], [true, 64], [false, 3]] as const) {
    const width = 5, each = colour ? 3 : 1;
    const pixels = new Uint8Array(width * height * each).map((_, i) => i * 7);
    const seen = new Uint8Array(width * height * 4);
    const pen = {
      putImageData: ({ data }: ImageData, x: number, y: number, ...kept: number[]) => {
        assert.deepEqual([x, ...kept.slice(0, 3)], [0, 0, 0, width]);
        seen.set(data.subarray(0, width * (kept[3] ?? 0) * 4), y * width * 4);
      },
    } as unknown as CanvasRenderingContext2D;
    paint(pen, { width, height, colour, pixels });
    assert.deepEqual([...seen], screen([...pixels], colour, width * height));
  }
});
