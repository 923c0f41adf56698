// With keys alone: from an empty page to a packet, mends, views, dialogs; the focus
// is always seen, and nothing holds it.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { built, newPage, openChromium, type Chromium } from '../support/browser.js';
import { servePages, type PageServer } from '../support/server.js';
import { drawnPages, hasPages, saved, settled, show, textOf, views, writeText,
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

/** The focus: what it is on, and whether it can be seen. */
async function focus(page: Page): Promise<{ name: string; seen: boolean; key: string }> {
  return page.evaluate(() => {
    const node = document.activeElement as HTMLElement | null;
    if (!node || node === document.body) return { name: '', seen: true, key: '' };
    const label = node.getAttribute('aria-label') ??
      (node as HTMLInputElement).labels?.[0]?.textContent ?? node.textContent ?? '';
    // The ring may be drawn by the node or by what it stands in.
    const ring = (one: Element | null): boolean => {
      if (!one) return false;
      const style = getComputedStyle(one);
      return style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 1 ||
        style.boxShadow !== 'none';
    };
    const box = node.getBoundingClientRect();
    const inside = box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth;
    const path: string[] = [];
    for (let one: Element | null = node; one; one = one.parentElement) {
      path.push(String([...(one.parentElement?.children ?? [])].indexOf(one)));
    }
    return {
      name: `${node.tagName.toLowerCase()} ${label.trim().slice(0, 40)}`, key: path.join('.'),
      seen: inside && (ring(node) || ring(node.parentElement) || ring(node.closest('.cm-editor, label'))),
    };
  });
}

/** Presses Tab until the focus is on what is wanted. */
async function tabTo(page: Page, wanted: RegExp, key = 'Tab'): Promise<void> {
  const been: string[] = [];
  for (let i = 0; i < 150; ++i) {
    const { name } = await focus(page);
    if (wanted.test(name)) return;
    been.push(name);
    await page.keyboard.press(key);
  }
  assert.fail(`${String(wanted)} was not reached: ${been.slice(-12).join(', ')}`);
}

test('from nothing to a packet with keys alone', async (t) => {
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await page.getByRole('combobox', { name: 'Which pattern is next?' }).waitFor();
  await tabTo(page, /Which pattern is next/);
  await page.keyboard.type('igh');
  await page.getByRole('option').first().waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Save', exact: true }).waitFor();
  await hasPages(page);
  await page.evaluate(() => { (document.activeElement as HTMLElement | null)?.blur(); });
  await tabTo(page, /Layout/);
  await page.keyboard.type('Large');
  await settled(page);
  await tabTo(page, /^button Packet for the learner/);
  const packet = await saved(page, () => page.keyboard.press('Enter'));
  assert.match(packet.name, /packet\.pdf$/);
  // The text, and out of it again.
  await tabTo(page, /^button Form/, 'Shift+Tab').catch(() => tabTo(page, /^button Form/));
  await page.keyboard.press('ArrowRight');
  await tabTo(page, /Lesson text/);
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\ntitle: By lamp light');
  await settled(page);
  assert.match(await textOf(page), /title: By lamp light/);
  await page.keyboard.press('Tab');
  assert.doesNotMatch((await focus(page)).name, /Lesson text/, 'Tab does not leave the text');
  assert.deepEqual(faults, []);
});

test('a mend is reached and pressed, and the focus stays near', async (t) => {
  const { page } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await writeText(page, 'pattern: sh\nwords: ship shop fish dish\nsightwords: the\n');
  const mend = page.locator('.ms-mend').first();
  await mend.waitFor();
  const name = (await mend.innerText()).trim();
  await tabTo(page, new RegExp(`^button ${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').slice(0, 25)}`));
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => !document.querySelector('.cm-lintRange-error'));
  assert.match(await textOf(page), /sight-words/);
  await settled(page);
  assert.notEqual((await focus(page)).name, '', 'the focus is lost');
});

for (const view of views) {
  test(`Tab goes round all of the view, and the focus is seen: ${view}`, async (t) => {
    const { page } = await newPage(t, chromium.browser);
    await page.goto(server.address);
    await hasPages(page);
    await show(page, view);
    await page.waitForTimeout(300);
    await page.evaluate(() => { (document.activeElement as HTMLElement | null)?.blur(); });
    const wanted = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>(
      'a[href], button, select, input, textarea, [tabindex="0"], summary')]
      .filter((node) => node.checkVisibility({ visibilityProperty: true }) && node.tabIndex >= 0 &&
        !(node as HTMLButtonElement).disabled &&
        !(node instanceof HTMLInputElement && node.type === 'radio' && !node.checked)).length);
    const reached = new Set<string>();
    const unseen: string[] = [];
    let round = false;
    for (let i = 0; i < wanted + 40 && !round; ++i) {
      await page.keyboard.press('Tab');
      const { name, seen, key } = await focus(page);
      // After the last place the browser's own buttons have a turn.
      if (name === '') continue;
      round = reached.has(key);
      if (round) break;
      reached.add(key);
      // It may still be scrolling into sight.
      if (seen) continue;
      let later = await focus(page);
      for (let tries = 0; !later.seen && tries < 30; ++tries) {
        await page.waitForTimeout(100);
        later = await focus(page);
      }
      if (!later.seen) unseen.push(name);
    }
    assert.ok(round, 'Tab never came round');
    assert.ok(reached.size >= wanted, `${reached.size} of ${wanted} places were reached`);
    assert.deepEqual(unseen, [], 'the focus cannot be seen');
  });
}

test('a dialog holds the focus while it is open and gives it back', async (t) => {
  const { page } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  await page.evaluate(() => { (document.activeElement as HTMLElement | null)?.blur(); });
  await tabTo(page, /^button New lesson/);
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog');
  await dialog.waitFor();
  for (let i = 0; i < 20; ++i) {
    await page.keyboard.press('Tab');
    const inside = await page.evaluate(() => {
      const node = document.activeElement;
      return node === document.body || node?.closest('dialog') !== null;
    });
    assert.ok(inside, 'the focus left the dialog');
  }
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  assert.match((await focus(page)).name, /^button New lesson/);
});

test('the first Tab offers the way past what repeats', async (t) => {
  const { page } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  // Round to the beginning: after the last place comes the first.
  let before = 'somewhere';
  for (let i = 0; i < 150 && before !== ''; ++i) {
    await page.keyboard.press('Tab');
    before = (await focus(page)).name;
  }
  await page.keyboard.press('Tab');
  assert.match((await focus(page)).name, /To the main part/);
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => Boolean(document.activeElement?.closest('main')));
  assert.ok(await drawnPages(page) > 0);
});
