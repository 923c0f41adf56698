/** Pixels as the module gives them and as a screen wants them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { forScreen } from '../../src/engine/pixels.js';

const screen = (bytes: number[], colour: boolean, pixels: number): number[] => {
  const into = new ArrayBuffer(pixels * 4);
  forScreen(new Uint8Array(bytes), colour, into);
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
  forScreen(new Uint8Array([9]), false, into);
  assert.deepEqual([...new Uint8Array(into)], [9, 9, 9, 255]);
});
