// A lesson from the first view to its packets: written, mistyped, mended, laid out
// otherwise, saved, opened again, printed.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Locator } from 'playwright-core';
import { built, newPage, openChromium, singleFile, type Chromium } from '../support/browser.js';
import { checkPdf, pagesOfPdf, paperOfPdf, textOfPdf } from '../support/pdf.js';
import { servePages, type PageServer } from '../support/server.js';
import { beginLesson, drawnPages, hasPages, saved, settled, show, showText, textOf, writeText,
} from '../support/steps.js';

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

const press = (name: string) => ({ name, exact: true }) as const;

for (const [kind, address] of [['served', ''], ['in one file', singleFile]] as const) {
  test(`from a pattern to two packets: ${kind}`, async (t) => {
    const { page, faults } = await newPage(t, chromium.browser);
    await page.goto(address || server.address);
    await beginLesson(page, 'oa');
    await hasPages(page);
    await showText(page);
    assert.match(await textOf(page), /^pattern: oa$/m);

    for (const [button, name, words] of [
      ['Packet for the learner', /^oa-.*-packet\.pdf$/, /boat|coat|road|goat/],
      ['Packet for the teacher', /^oa-.*-teacher\.pdf$/, /boat|coat|road|goat/],
    ] as const) {
      const packet = await saved(page, () => page.getByRole('button', press(button)).click());
      assert.match(packet.name, name);
      checkPdf(packet.path);
      assert.match(textOfPdf(packet.path), words);
      // An A4 page: the browser says that it is British.
      const [width, height] = paperOfPdf(packet.path);
      assert.deepEqual([Math.round(width), Math.round(height)], [595, 842]);
      assert.ok(pagesOfPdf(packet.path) >= 4);
    }
    assert.deepEqual(faults, []);
  });
}

test('after a rest commands are there as before, with all files', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  assert.equal(page.workers().length, 2);
  await page.waitForTimeout(11_000);
  assert.equal(page.workers().length, 1);
  await writeText(page, 'pattern: sh\nwords: ship shop fish dish wish shed\nsightwords: the\n');
  await page.getByRole('region', { name: 'Messages' })
    .getByRole('button', { name: 'What does this mean?' }).first().click();
  await page.getByRole('dialog').waitFor();
  assert.equal(page.workers().length, 2);
  assert.deepEqual(faults, []);
});

test('a slip is underlined, said in words and mended in one press', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await writeText(page, 'pattern: sh\nwords: ship shop fish dish wish shed\nsightwords: the\n');
  const messages = page.getByRole('region', { name: 'Messages' });
  const mend = messages.locator('.ms-mend').first();
  await mend.waitFor();
  assert.match(await messages.innerText(), /line 3/i);
  assert.ok(await page.locator('.cm-lintRange').count() > 0, 'nothing is underlined');
  // What was good stays, and the page says that it is not of this text.
  assert.ok(await drawnPages(page) > 0);
  const before = await textOf(page);
  await mend.click();
  await page.locator('.cm-line', { hasText: /^sight-words/ }).waitFor();
  assert.match(await textOf(page), /^sight-words: the$/m);
  await settled(page);
  await page.waitForFunction(() => document.querySelector('.cm-lintRange-error') === null);
  // One step back undoes the mend alone.
  await page.locator('.cm-content').focus();
  await page.keyboard.press('Control+z');
  assert.equal(await textOf(page), before);
  assert.deepEqual(faults, []);
});

test('what opens beside the text is whole, and shows what may stand there', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await writeText(page, 'pattern: sh\nwords: ship shop fihs dish wish shed\n');
  // In the last line of a low window the list stands above it, beyond the editor.
  await page.setViewportSize({ width: 1366, height: 520 });
  await page.keyboard.press('Control+End');
  await page.keyboard.type('sor', { delay: 80 });
  const offer = page.getByRole('option', { name: /sort-words/ });
  await offer.waitFor();
  const whole = async (locator: Locator): Promise<void> => {
    const seen = await locator.evaluate((node) => {
      const { left, right, top, bottom } = node.getBoundingClientRect();
      const ends = [[left + 3, top + 3], [right - 3, bottom - 3]] as const;
      return ends.every(([x, y]) => node.contains(document.elementFromPoint(x, y)));
    });
    assert.ok(seen, 'a part of it is cut off or covered');
  };
  await whole(page.locator('.cm-tooltip-autocomplete'));
  // A list that has only just come takes no key: it was meant for the text.
  await page.waitForTimeout(150);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  assert.match(await textOf(page), /^sort-words/m);

  await page.locator('.cm-lintRange', { hasText: 'fihs' }).first().hover();
  await page.locator('.cm-tooltip-hover').waitFor();
  await whole(page.locator('.cm-tooltip-hover'));
  assert.match(await page.locator('.cm-tooltip-hover').innerText(), /fihs/);
  assert.deepEqual(faults, []);
});

test('a lesson with a mistake gives no packet, and says why', async (t) => {
  const { page } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await writeText(page, 'pattern: sh\nwords: ship shop fish\nlayout: nothing-like-it\n');
  await settled(page);
  const downloads: string[] = [];
  page.on('download', (download) => { downloads.push(download.suggestedFilename()); });
  await page.getByRole('button', press('Packet for the learner')).click();
  await page.getByText(/mended first/).first().waitFor();
  await page.waitForTimeout(500);
  assert.deepEqual(downloads, []);
});

test('another layout and another paper change the packet', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  const take = () => saved(page, () =>
    page.getByRole('button', press('Packet for the learner')).click());
  const week = await take();
  await page.getByLabel('Layout', { exact: true }).filter({ visible: true }).selectOption('large-print');
  await settled(page);
  const large = await take();
  checkPdf(large.path);
  assert.ok(pagesOfPdf(large.path) > pagesOfPdf(week.path), 'large print takes more pages');
  await showText(page);
  assert.match(await textOf(page), /^layout: large-print$/m);
  await page.getByLabel('Layout', { exact: true }).filter({ visible: true }).selectOption('week');
  await page.getByLabel('Paper', { exact: true }).filter({ visible: true }).selectOption('letter');
  await settled(page);
  const letter = await take();
  assert.deepEqual(paperOfPdf(letter.path).map(Math.round), [612, 792]);
  assert.doesNotMatch(await textOf(page), /^layout:/m);
  assert.deepEqual(faults, []);
});

test('form and text are one: what is typed in either stands in both', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  const form = page.getByRole('tab', press('Form'));
  await form.click();
  const words = page.getByLabel('Words', { exact: true });
  await words.fill('ship shop fish dish wish shed rush brush');
  await showText(page);
  await settled(page);
  assert.match(await textOf(page), /^words: ship shop fish dish wish shed rush brush$/m);
  await writeText(page, 'pattern: sh\nwords: shell shelf crash\n');
  await settled(page);
  await form.click();
  await page.waitForFunction((field) => (field as HTMLTextAreaElement).value.trim() === 'shell shelf crash',
    await words.elementHandle(), { timeout: 5000 }).catch(() => undefined);
  assert.equal((await words.inputValue()).trim(), 'shell shelf crash');
  assert.deepEqual(faults, []);
});

test('a saved lesson can be opened again, and what is not saved is said', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await writeText(page, 'pattern: ch\nwords: chip chop chin rich much such\n');
  await page.locator('.shell-unsaved').waitFor();
  const lesson = await saved(page, () => page.keyboard.press('Control+s'));
  assert.match(lesson.name, /\.yaml$/);
  assert.equal(lesson.bytes.toString(), 'pattern: ch\nwords: chip chop chin rich much such\n');
  await page.locator('.shell-unsaved').waitFor({ state: 'detached' });

  await page.reload();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'Open a lesson' }).click()]);
  await chooser.setFiles({ name: 'chip.yaml', mimeType: 'text/plain', buffer: lesson.bytes });
  await hasPages(page);
  await showText(page);
  assert.match(await textOf(page), /chip chop chin/);
  assert.deepEqual(faults, []);
});

test('print opens the pages in a tab of their own', async (t) => {
  const { page, context, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await page.keyboard.press('Control+p');
  const dialog = page.getByRole('dialog');
  const link = dialog.getByRole('link', { name: /For the learner, \d+ pages/ });
  await link.waitFor();
  const address = await link.getAttribute('href');
  assert.match(address ?? '', /^blob:/);
  const bytes = await page.evaluate(async (href) => new Promise<string>((settle, fail) => {
    // The page's rules let nothing be fetched from a blob; a frame shows it.
    const frame = document.createElement('iframe');
    frame.onload = () => { settle('shown'); };
    frame.onerror = () => { fail(new Error('not shown')); };
    frame.src = href ?? '';
    document.body.append(frame);
  }), address);
  assert.equal(bytes, 'shown');
  const [tab] = await Promise.all([context.waitForEvent('page'), link.click()]);
  await tab.waitForURL(/^blob:/);
  assert.deepEqual(faults, []);
});

test('a page leads to its lines, and a line to its pages', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await showText(page);
  await settled(page);
  const inText = () => page.waitForFunction(() =>
    document.activeElement?.closest('.cm-editor') !== null);
  // By a button, which keys reach too: several lines make it, so there is a list.
  // Pages that are made anew close it, and the button opens it again.
  const opens = page.getByRole('button', { name: /Show its lines: page \d+, sound card/i });
  const line = page.getByRole('button', { name: /^Line \d+: words/ });
  for (let i = 0; i < 4 && !await line.isVisible(); ++i) {
    await opens.click();
    await line.waitFor({ timeout: 3000 }).catch(() => undefined);
  }
  await line.click();
  await inText();
  // Pages that show the words are framed.
  await page.locator('.pg-here').first().waitFor();
  // And by pressing on the page itself: its words are a line's.
  const sheet = page.getByRole('img', { name: /^Page \d+, Discovery/i });
  const box = await sheet.boundingBox();
  assert.ok(box);
  await page.locator('.cm-content').evaluate((node) => { (node as HTMLElement).blur(); });
  let found = false;
  for (let y = 0.1; y < 0.6 && !found; y += 0.05) {
    await sheet.click({ position: { x: box.width * 0.3, y: box.height * y } });
    found = await page.waitForFunction(() =>
      document.activeElement?.closest('.cm-editor') !== null, undefined, { timeout: 2500 })
      .then(() => true, () => false);
  }
  assert.ok(found, 'no place of the page leads to the text');
  await show(page, 'Guide');
  await show(page, 'Lesson');
  assert.ok(await drawnPages(page) > 0);
  assert.deepEqual(faults, []);
});
