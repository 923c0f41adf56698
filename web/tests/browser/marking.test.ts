// Marking: one learner's words with no file at all, a class, and the weeks.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { built, newPage, openChromium, type Chromium } from '../support/browser.js';
import { chooseFolder, putInto, standInFolder, termFolder, textIn, textsOf } from '../support/term.js';
import { checkPdf, textOfPdf } from '../support/pdf.js';
import { servePages, type PageServer } from '../support/server.js';
import { hasPages, saved, show, writeText } from '../support/steps.js';

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

const caution = /They do not screen for or diagnose anything/;
const panel = (page: Page) => page.getByRole('tabpanel').and(page.locator(':visible'));

test('what a learner wrote is marked grapheme by grapheme, in signs and words', async (t) => {
  const { page, faults, requests } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await writeText(page, 'pattern: ai, ay\nwords: rain day train play\ndictate-words: rain day train play\n' +
    'dictate-sentences: |\n  The train will wait a day.\n');
  await show(page, 'Marking');
  const before = requests.length;
  const row = (word: string) => page.getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: word, exact: true }) });
  await page.getByLabel('What they wrote for rain', { exact: true }).fill('rane');
  await row('rain').getByRole('listitem').first().waitFor();
  assert.deepEqual(await row('rain').getByRole('listitem').allInnerTexts(), ['r\n✓ correct', 'ai\n≈ plausible', 'n\n✓ correct']);
  assert.match(await row('rain').innerText(), /ai written a_e, plausible \(sound kept.*\); letter sequences 2 of 5/);
  // Enter goes to the next word.
  await page.keyboard.press('Enter');
  await page.keyboard.type('day');
  await row('day').getByText('Right; letter sequences 4 of 4.').waitFor();
  await page.getByLabel('What they wrote for The train will wait a day.').fill('The tran will wate a day.');
  await page.getByText('tran for train', { exact: true }).waitFor();
  await page.getByText(/^5 of 8 words right; letter sequences/).waitFor();
  assert.match(await panel(page).innerText(), caution);
  // A word of the teacher's own.
  await page.getByLabel('Any other word or sentence').fill('boat');
  await page.getByLabel('What they wrote for it').fill('bt');
  await page.getByText(/^oa missing .*letter sequences/).waitFor();
  assert.deepEqual(requests.slice(before), []);
  assert.deepEqual(faults, []);
});

test('a class is marked as its errors are typed, and the record never replaces another', async (t) => {
  const { page, context, faults } = await newPage(t, chromium.browser);
  await standInFolder(context, 'Room4');
  await page.goto(server.address);
  await putInto(page, 'Room4', textsOf(termFolder(t)));
  await show(page, 'Folder');
  await page.getByRole('button', { name: 'Open a folder' }).click();
  await page.getByRole('region', { name: 'Files' }).waitFor();
  await show(page, 'Marking');
  await page.getByRole('tab', { name: 'A class' }).click();
  const form = panel(page);
  const begin = async () => {
    await form.getByRole('combobox', { name: 'Lesson' }).selectOption('week-10-o-e.yaml');
    await form.getByLabel('Day of writing').fill('2026-11-20');
    await form.getByRole('button', { name: 'Begin', exact: true }).click();
  };
  await begin();
  const line = (code: string) => form.getByRole('row', { name: code });
  await line('B7').getByText('Everything right').waitFor();
  const dictated = (await form.locator('.marking-dictated p').nth(1).innerText()).split(' ');
  const [first = '', second = ''] = dictated;
  await line('C3').getByRole('textbox').fill(`${first}=.`);
  await line('C3').getByText('left blank').waitFor();
  await line('D1').getByRole('textbox').fill('xqz');
  await line('D1').getByText('no word that was dictated is near to').waitFor();
  // The question about one keeps the others marked, and the record unsaved.
  await line('B7').getByText('Everything right').waitFor();
  await form.getByRole('button', { name: 'Save the record' }).click();
  await page.getByText('Not saved yet').waitFor();
  assert.equal(await textIn(page, 'Room4', 'records/2026-11-20-week-10-o-e.yaml'), null);
  await line('D1').getByRole('textbox').fill(`${second}=xqz`);
  await line('D1').getByText(`xqz for ${second}`).waitFor();
  await line('M5').getByRole('checkbox').check();
  await line('M5').getByText('Away: counts for nothing.').waitFor();
  assert.match(await form.innerText(), caution);
  await form.getByRole('button', { name: 'Save the record' }).click();
  await page.getByText('Saved: records/2026-11-20-week-10-o-e.yaml.').waitFor();
  const record = await textIn(page, 'Room4', 'records/2026-11-20-week-10-o-e.yaml') ?? '';
  for (const part of ['\nmarked: all\n', '\nabsent: M5\n', `\n  C3: ${first}=.\n`, `\n  D1: ${second}=xqz\n`, '\n  K2:\n']) {
    assert.ok(record.includes(part), `${part} in ${record}`);
  }
  // The draft it was typed in was never in the folder.
  assert.equal(await textIn(page, 'Room4', '.marking/2026-11-20-week-10-o-e.yaml'), null);
  await begin();
  await form.getByText('There is a record of that lesson and day').waitFor();
  assert.deepEqual(faults, []);
});

test('progress is a table of words and signs, and pages to print', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await show(page, 'Folder');
  await chooseFolder(page, termFolder(t));
  await show(page, 'Marking');
  await page.getByRole('tab', { name: 'Progress' }).click();
  const form = panel(page);
  await form.getByRole('heading', { name: 'B7, up to 2026-11-13' }).waitFor();
  await form.getByRole('combobox', { name: 'Learner' }).selectOption('D1');
  const table = form.getByRole('table', { name: 'Where each pattern stands for D1' });
  const state = table.getByRole('row', { name: 'sh' }).first().getByRole('cell').first();
  assert.match(await state.innerText(), /↺ check again/);
  assert.match(await form.innerText(), caution);
  for (const [choice, name, words] of [['For you', 'progress-D1-teacher.pdf', /diagnose nothing/],
    ['For home, in plain words', 'progress-D1-home.pdf', /D1/], ['For a meeting, with examples', 'progress-D1-meeting.pdf', /D1/]] as const) {
    await form.getByRole('combobox', { name: 'For whom' }).selectOption(choice);
    await form.getByRole('button', { name: 'Make the pages' }).click();
    const pdf = await saved(page, () => form.getByRole('button', { name: `Save ${name}` }).click());
    assert.equal(pdf.name, name);
    checkPdf(pdf.path);
    assert.match(textOfPdf(pdf.path), words);
  }
  await form.getByText('Look at them here').click();
  await page.locator('iframe[src^="blob:"]').waitFor();
  assert.deepEqual(faults, []);
});
