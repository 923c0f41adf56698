// How long it takes, and how much memory: printed, never asserted, since that says
// more of the machine. What is asserted are counts: pages are drawn, answers come,
// and a lesson that is typed over and over does not grow.

import assert from 'node:assert/strict';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { built, newPage, openChromium, singleFile, type Chromium } from '../support/browser.js';
import { classFolder, openFolder } from '../support/class_folder.js';
import { MemoryWatch } from '../support/memory.js';
import { servePages, type PageServer } from '../support/server.js';
import { hasPages, saved, settled, showText } from '../support/steps.js';

let chromium: Chromium;
let server: PageServer;
before(async () => {
  chromium = await openChromium();
  server = await servePages(built);
});
after(async () => {
  await chromium.close();
  await server.stop();
});

const ms = (time: number): string => `${Math.round(time)} ms`;
const part = (times: number[], share: number): number =>
  [...times].sort((a, b) => a - b)[Math.min(times.length - 1, Math.floor(times.length * share))] ?? NaN;

for (const [kind, address] of [['served', ''], ['in one file', singleFile]] as const) {
  test(`opening, the first page and typing: ${kind}`, async (t) => {
    const { page, faults } = await newPage(t, chromium.browser);
    const memory = await MemoryWatch.begin(chromium.browser);
    memory.while('opening');
    const begin = performance.now();
    await page.goto(address || server.address);
    const box = page.getByRole('combobox', { name: 'Which pattern is next?' });
    await box.waitFor();
    const there = performance.now() - begin;
    await page.getByRole('option').first().waitFor();
    const ready = performance.now() - begin;
    const chosen = performance.now();
    await hasPages(page);
    t.diagnostic(`opened after ${ms(there)}, ready after ${ms(ready)}, ` +
      `first page ${ms(performance.now() - chosen)} after the pattern was chosen`);

    memory.while('the first page');
    const editor = await showText(page);
    await editor.focus();
    await page.evaluate(() => { performance.clearMeasures(); });
    const line = await page.locator('.cm-line', { hasText: /^words:/ }).first().boundingBox();
    assert.ok(line);
    await page.mouse.click(line.x + line.width - 4, line.y + 8);
    await page.keyboard.press('End');
    // Words that the draft does not have, as a quick writer types them; then the
    // key is held that takes them back, which repeats some thirty times a second.
    const typed = ' mash gush trash shred flash';
    const taken = async (): Promise<number[]> => page.evaluate(() => {
      const times = performance.getEntriesByName('sheaf-key-page').map((entry) => entry.duration);
      performance.clearMeasures();
      return times;
    });
    const written: number[] = [];
    const erased: number[] = [];
    for (let round = 0; round < 3; ++round) {
      memory.while('typing');
      for (const letter of typed) {
        await page.keyboard.type(letter);
        await page.waitForTimeout(120);
      }
      await settled(page);
      written.push(...await taken());
      memory.while('a held key');
      for (let i = 0; i < typed.length; ++i) {
        await page.keyboard.press('Backspace');
        await page.waitForTimeout(30);
      }
      await settled(page);
      erased.push(...await taken());
    }
    for (const [what, times] of [['typed', written], ['held', erased]] as const) {
      assert.ok(times.length > 0, 'no key led to a page that was drawn');
      t.diagnostic(`${times.length} keys ${what} that changed a page in sight: ` +
        `median ${ms(part(times, 0.5))}, ` +
        `95 of 100 within ${ms(part(times, 0.95))}, the slowest ${ms(part(times, 1))}`);
    }

    memory.while('a packet');
    const packet = performance.now();
    await saved(page, () => page.getByRole('button', { name: 'Packet for the learner' }).click());
    t.diagnostic(`a packet ${ms(performance.now() - packet)}`);
    memory.while('at rest');
    await page.waitForTimeout(4000);
    t.diagnostic(`memory of the page alone, the most of it: ${memory.end()}`);
    assert.deepEqual(faults, []);
  });
}

test('a class of five: what it takes', async (t) => {
  const folder = classFolder(t);
  const { page, faults } = await newPage(t, chromium.browser);
  const memory = await MemoryWatch.begin(chromium.browser);
  memory.while('opening a folder');
  await page.goto(server.address);
  await openFolder(page, folder);
  memory.while('the packets of a class');
  const begin = performance.now();
  await page.getByRole('button', { name: 'Make the packets' }).click();
  await page.getByRole('button', { name: /^Save class-packets\.pdf/ }).waitFor();
  t.diagnostic(`made after ${ms(performance.now() - begin)}`);
  t.diagnostic(`memory of the page alone, the most of it: ${memory.end()}`);
  assert.deepEqual(faults, []);
});

test('what a visit weighs is within its limit', (t) => {
  const visit = ['index.html', 'app.js', 'style.css', 'sw.js', 'icon.svg', 'sheaf.webmanifest',
    'sheaf-module.bin', 'sheaf-data.bin', 'sheaf-worker.bin', 'sheaf-licences.bin']
    .reduce((sum, name) => sum + statSync(join(built, name)).size, 0);
  const single = statSync(join(built, 'sheaf.html')).size;
  t.diagnostic(`a visit ${(visit / 1e6).toFixed(2)} MB as files, ` +
    `sheaf.html ${(single / 1e6).toFixed(2)} MB`);
  assert.ok(visit < 6_600_000);
  assert.ok(single < 15_000_000);
});
