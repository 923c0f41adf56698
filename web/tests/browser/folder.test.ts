// A teacher's folder: its files by kind, a class for the printer, what comes
// next, and what another program changes meanwhile.

import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { built, newPage, openChromium, singleFile, type Chromium } from '../support/browser.js';
import { chooseFolder, putInto, standInFolder, termFolder, textIn, textsOf } from '../support/term.js';
import { checkPdf, pagesOfPdf, paperOfPdf, textOfPdf } from '../support/pdf.js';
import { servePages, type PageServer } from '../support/server.js';
import { saved, settled, show, textOf } from '../support/steps.js';

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

test('a class becomes one PDF for the printer, from the page in one file', async (t) => {
  const { page, faults, requests } = await newPage(t, chromium.browser);
  await page.goto(singleFile);
  await show(page, 'Folder');
  const before = requests.length;
  await chooseFolder(page, termFolder(t));
  const files = page.getByRole('region', { name: 'Files' });
  for (const head of ['Lessons (23)', 'Classes (1)', 'What is taught in which step (1)']) {
    await files.getByText(head).waitFor();
  }
  assert.match(await files.innerText(), /1 file of a kind that Sheaf does not read \(\.docx\)/);
  const part = page.getByRole('region', { name: 'Packets for a class' });
  await part.getByRole('button', { name: 'Make the packets' }).click();
  await part.getByText(/^✓ Made: 5 packets/).waitFor();
  for (const [label, name, words] of [
    ['All packets, for the printer', 'class-packets.pdf', /B7[\s\S]*M5/], ['Your pages', 'class-teacher.pdf', /home|bone|code/]] as const) {
    const row = part.locator('li', { hasText: label });
    const pdf = await saved(page, () => row.getByRole('button', { name: /^Save / }).click());
    assert.equal(pdf.name, name);
    checkPdf(pdf.path);
    assert.match(textOfPdf(pdf.path), words);
    assert.deepEqual(paperOfPdf(pdf.path).map(Math.round), [595, 842]);
    assert.ok(pagesOfPdf(pdf.path) > 5);
  }
  // One learner alone.
  await part.getByRole('combobox', { name: 'For whom' }).selectOption('C3');
  await part.getByRole('button', { name: 'Make the packets' }).click();
  const own = part.locator('li', { hasText: 'Packet of C3' });
  const pdf = await saved(page, () => own.getByRole('button', { name: /^Save / }).click());
  assert.equal(pdf.name, 'class-C3-packet.pdf');
  checkPdf(pdf.path);
  assert.ok(!textOfPdf(pdf.path).includes('B7'));
  assert.deepEqual(requests.slice(before), []);
  assert.deepEqual(faults, []);
});

test('what comes next: the week of each group, review words, a lesson for a step', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await show(page, 'Folder');
  await chooseFolder(page, termFolder(t));
  const part = page.getByRole('region', { name: 'What comes next' });
  const plan = part.locator('pre');
  await part.getByLabel('Week of').fill('2026-11-23');
  await part.getByRole('button', { name: 'What each group does next' }).click();
  await plan.getByText('class (B7, C3, D1, K2, M5): week-10-o-e.yaml').waitFor();
  assert.ok(!(await plan.innerText()).includes('--yes'));
  const file = await saved(page, () => part.getByRole('button', { name: 'Write these lessons into the class file' }).click());
  assert.equal(file.name, 'class.yaml');
  assert.match(file.bytes.toString(), /^lesson: week-11-oo\.yaml$/m);
  await settled(page);
  await part.getByRole('button', { name: 'What to review' }).click();
  await plan.getByText('together, for').waitFor();
  assert.ok(!(await plan.innerText()).includes('sheaf build'));
  await part.getByRole('combobox', { name: 'Step' }).selectOption('7');
  await part.getByRole('button', { name: 'Draft a lesson' }).click();
  await page.locator('.cm-content', { hasText: 'pattern: oa' }).waitFor({ state: 'attached' });
  assert.match(await textOf(page), /^pattern: oa$/m);
  assert.deepEqual(faults, []);
});

test('an opened folder is written into only on saving, and read again when it changed', async (t) => {
  const { page, context, faults } = await newPage(t, chromium.browser);
  await standInFolder(context, 'Room4');
  await page.goto(server.address);
  const texts = textsOf(termFolder(t));
  await putInto(page, 'Room4', texts);
  await show(page, 'Folder');
  await page.getByRole('button', { name: 'Open a folder' }).click();
  await page.getByText('What you save is written into this folder.').waitFor();
  const part = page.getByRole('region', { name: 'Packets for a class' });
  await part.getByRole('button', { name: 'Make the packets' }).click();
  await part.getByText(/^✓ Made/).waitFor();
  assert.equal(await textIn(page, 'Room4', 'packets/class-packets.pdf'), null);
  await part.getByRole('button', { name: 'Save into the folder class-packets.pdf' }).click();
  await page.getByText('Saved in the folder: packets/class-packets.pdf.').waitFor();
  assert.match(await textIn(page, 'Room4', 'packets/class-packets.pdf') ?? '', /^%PDF-/);
  // Another program, while the teacher is away from the page.
  await putInto(page, 'Room4', { 'broken.yaml': 'pattern: sh\n' });
  await page.evaluate(() => { window.dispatchEvent(new Event('focus')); });
  await page.getByText('broken.yaml was changed by another program, and is read again.').waitFor();
  await page.getByRole('listitem').filter({ hasText: 'broken.yaml' }).getByText('✓ no mistakes').waitFor();
  assert.equal(await textIn(page, 'Room4', 'class.yaml'), texts['class.yaml']);
  assert.deepEqual(faults, []);
});

test('a name in a class file is refused, and never shown', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  const folder = termFolder(t);
  writeFileSync(join(folder, 'class.yaml'), 'lesson: week-01-sh.yaml\nlearners:\n  Johnny Miller:\n  B7:\n');
  await page.goto(server.address);
  await show(page, 'Folder');
  await chooseFolder(page, folder);
  const row = page.getByRole('listitem').filter({ hasText: 'class.yaml' });
  await row.getByText('✗ 1 mistake').click();
  assert.match(await row.innerText(), /the learner in line 3 has no short code/);
  const part = page.getByRole('region', { name: 'Packets for a class' });
  await part.getByRole('button', { name: 'Make the packets' }).click();
  await part.getByText('✗ No packets were made.').waitFor();
  await show(page, 'Marking');
  await page.getByRole('tab', { name: 'A class' }).click();
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await page.getByText('has no short code').last().waitFor();
  assert.ok(!/Johnny|Miller/.test(await page.content()));
  assert.deepEqual(faults, []);
});
