// A folder with a class, beside the program on the same folder: everybody's packets
// are the same to the byte, and the program reads the records that the page saves.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { built, newPage, openChromium, type Chromium } from '../support/browser.js';
import { classFolder, openFolder } from '../support/class_folder.js';
import { lookAt } from '../support/look.js';
import { checkPdf, textOfPdf } from '../support/pdf.js';
import { program } from '../support/program.js';
import { servePages, type PageServer } from '../support/server.js';
import { hasPages, saved, show, showText, textOf } from '../support/steps.js';

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

const native = (args: string[], cwd: string): string =>
  execFileSync(program, args, { cwd, encoding: 'utf8', stdio: 'pipe' });
const part = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

test('a folder: its files by kind, and a lesson of it', async (t) => {
  const folder = classFolder(t);
  writeFileSync(join(folder, 'mistaken.yaml'), 'pattern: sh\nwords: ship shop\nsightwords: the\n');
  writeFileSync(join(folder, 'letter.docx'), 'none of ours');
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await openFolder(page, folder);
  await page.getByRole('heading', { name: 'Lessons (4)' }).waitFor();
  await page.getByRole('heading', { name: 'Classes (1)' }).waitFor();
  await page.getByText(/letter\.docx|1 file/).first().waitFor();
  await page.locator('.folder-file', { hasText: 'mistaken.yaml' }).getByText('1 mistake').waitFor();
  await page.locator('.folder-file', { hasText: 'sh-ship.yaml' }).getByText('no mistakes').waitFor();
  await lookAt(page, 'laptop-folder-open');
  await page.getByRole('button', { name: 'ai-ay-rain.yaml', exact: true }).click();
  await hasPages(page);
  await showText(page);
  assert.equal(await textOf(page), readFileSync(join(folder, 'ai-ay-rain.yaml'), 'utf8'));
  assert.deepEqual(faults, []);
});

test('a class: one file for the printer, the same as the program makes', async (t) => {
  const folder = classFolder(t);
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await openFolder(page, folder);
  await part(page, 'Packets for a class').getByLabel('Paper').selectOption('letter');
  await page.getByRole('button', { name: 'Make the packets' }).click();
  const made = part(page, 'The packets');
  const all = await saved(page, () =>
    made.getByRole('button', { name: /^Save class-packets\.pdf/ }).click());
  checkPdf(all.path);
  const words = textOfPdf(all.path);
  for (const code of ['B7', 'C3', 'D1', 'E5', 'K2']) assert.ok(words.includes(code), code);
  const yours = await saved(page, () =>
    made.getByRole('button', { name: /^Save class-teacher\.pdf/ }).click());
  checkPdf(yours.path);
  native(['build', '--class', 'class.yaml', '--out', 'out', '--paper', 'letter'], folder);
  assert.ok(all.bytes.equals(readFileSync(join(folder, 'out/class/packets.pdf'))), 'packets');
  assert.ok(yours.bytes.equals(readFileSync(join(folder, 'out/class/teacher.pdf'))), 'teacher');
  await lookAt(page, 'laptop-class');

  await part(page, 'Packets for a class').getByLabel('For whom').selectOption('learner:B7');
  await page.getByRole('button', { name: 'Make the packets' }).click();
  const one = await saved(page, () =>
    made.getByRole('button', { name: /Save class-B7-packet\.pdf/ }).click());
  checkPdf(one.path);
  assert.deepEqual(faults, []);
});

test('what one learner wrote, marked while it is typed', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await openFolder(page, classFolder(t));
  await page.getByRole('button', { name: 'ai-ay-rain.yaml', exact: true }).click();
  await hasPages(page);
  await show(page, 'Marking');
  const field = page.getByLabel('What they wrote for rain', { exact: true });
  await field.fill('rane');
  const row = page.getByRole('row', { name: /^rain/ });
  await row.getByText('plausible').first().waitFor();
  await field.fill('rain');
  await row.getByText(/^Right/).waitFor();
  await field.fill('ran');
  await row.getByText('wrong').or(row.getByText('missing')).first().waitFor();
  await page.getByText(/They do not screen for or diagnose anything/).first().waitFor();
  await lookAt(page, 'laptop-marking-typed');
  assert.deepEqual(faults, []);
});

test('a class: errors only, and a record that the program reads', async (t) => {
  const folder = classFolder(t);
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await openFolder(page, folder);
  await show(page, 'Marking');
  await page.getByRole('tab', { name: 'A class' }).click();
  await page.getByRole('combobox', { name: 'Lesson', exact: true }).selectOption({ label: 'ai-ay-rain.yaml' });
  await page.getByLabel('Day of writing').fill('2026-03-12');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByLabel('What E5 wrote wrong').fill('rane, wate');
  await page.getByLabel('K2 was away').check();
  await page.getByRole('row', { name: /^E5/ }).getByText(/rane for rain|rain/).first().waitFor();
  await lookAt(page, 'laptop-marking-class');
  const record = await saved(page, () =>
    page.getByRole('button', { name: 'Save the record' }).click());
  assert.match(record.name, /2026-03-12.*\.yaml$/);
  const file = join(folder, record.name);
  writeFileSync(file, record.bytes);
  native(['check', record.name], folder);
  const marks = native(['mark', record.name, '--csv'], folder);
  assert.match(marks, /E5.*rane/);
  assert.doesNotMatch(marks, /^K2/m);
  assert.deepEqual(faults, []);
});

test('the program and the page mark alike', async (t) => {
  const { page } = await newPage(t, chromium.browser);
  const scratch = mkdtempSync(join(tmpdir(), 'pairs-'));
  t.after(() => { rmSync(scratch, { recursive: true }); });
  await page.goto(server.address);
  await hasPages(page);
  await show(page, 'Marking');
  const pairs = [['boat', 'bote'], ['night', 'nite'], ['shop', 'sop'], ['jumped', 'jumpt']];
  writeFileSync(join(scratch, 'pairs.txt'), pairs.map((pair) => pair.join('\t')).join('\n'));
  const said = JSON.parse(native(['mark', '--pairs', 'pairs.txt', '--json'], scratch)) as unknown;
  const scores = JSON.stringify(said);
  for (const [word, wrote] of pairs) {
    await page.getByLabel('Any other word or sentence').fill(word ?? '');
    await page.getByLabel('What they wrote for it', { exact: true }).fill(wrote ?? '');
    const list = page.getByRole('list', { name: `${wrote} for ${word}` });
    await list.waitFor();
    const shown = await list.locator('.marking-letters').allInnerTexts();
    assert.ok(shown.length > 1 && scores.includes(`"${shown[0]}"`), shown.join(' '));
  }
});
