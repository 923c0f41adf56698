// The views of folder and marking with something in them: what axe finds, at
// three sizes and at 400%, and in colours of the system's.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { built, newPage, openChromium, sizes, type Chromium } from '../support/browser.js';
import { chooseFolder, termFolder } from '../support/term.js';
import { lookAt } from '../support/look.js';
import { servePages, type PageServer } from '../support/server.js';
import { show } from '../support/steps.js';

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

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const windows = { ...sizes, '400-percent': { width: 320, height: 256 } };

async function check(page: Page, name: string, only: readonly string[]): Promise<void> {
  const before = page.viewportSize() ?? sizes.laptop;
  for (const [size, viewport] of Object.entries(windows)) {
    if (!only.includes(size)) continue;
    await page.setViewportSize(viewport);
    await page.waitForTimeout(150);
    const where = `${name}, ${size}`;
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(sideways <= 0, `${where}: ${sideways} pixels too wide`);
    await page.evaluate(axe);
    const { violations, passes } = await page.evaluate(() =>
      (window as unknown as { axe: { run(node: Node, options: object): Promise<AxeResults> } })
        .axe.run(document, { runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a',
          'wcag21aa', 'wcag22aa', 'best-practice'] } }));
    assert.ok(passes.length > 10, `${where}: axe has looked at nothing`);
    assert.deepEqual(violations.map(({ id, nodes }) =>
      `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' | ')}`), [], where);
    await lookAt(page, `${size}-${name}`);
  }
  await page.setViewportSize(before);
}

for (const forcedColors of ['none', 'active'] as const) {
  test(`folder, class, marking and progress, filled: colours of the system's ${forcedColors}`, async (t) => {
    const { page } = await newPage(t, chromium.browser, { forcedColors });
    const kind = forcedColors === 'active' ? '-forced' : '';
    const only = forcedColors === 'active' ? ['laptop'] : Object.keys(windows);
    await page.goto(server.address);
    await show(page, 'Folder');
    await chooseFolder(page, termFolder(t));
    await page.getByRole('listitem').filter({ hasText: 'broken.yaml' }).getByText('✗ 1 mistake').click();
    await page.getByText('Keep this for my next visit').click();
    await page.getByRole('button', { name: 'Make the packets' }).click();
    await page.getByText(/^✓ Made/).waitFor();
    await page.getByRole('button', { name: 'What each group does next' }).click();
    await page.locator('pre').waitFor();
    await check(page, `folder-filled${kind}`, only);
    await show(page, 'Marking');
    await page.getByLabel('Any other word or sentence').fill('play');
    await page.getByLabel('What they wrote for it').fill('paly');
    await page.getByText(/^l moved/).waitFor();
    await page.getByText('What the signs mean').first().click();
    await check(page, `marking-word${kind}`, only);
    await page.getByRole('tab', { name: 'A class' }).click();
    const form = page.getByRole('tabpanel').and(page.locator(':visible'));
    await form.getByRole('combobox', { name: 'Lesson' }).selectOption('week-10-o-e.yaml');
    await form.getByLabel('Day of writing').fill('2026-11-20');
    await form.getByRole('button', { name: 'Begin', exact: true }).click();
    await form.getByText('Everything right').first().waitFor();
    await form.getByRole('row', { name: 'C3' }).getByRole('textbox').fill('xqz');
    await form.getByText(/^\? no word that was dictated/).waitFor();
    await form.getByRole('row', { name: 'M5' }).getByRole('checkbox').check();
    await form.getByText('Away: counts for nothing.').waitFor();
    await check(page, `marking-class${kind}`, only);
    await page.getByRole('tab', { name: 'Progress' }).click();
    await form.getByRole('table').first().waitFor();
    await form.getByText('Day by day').first().click();
    await check(page, `marking-progress${kind}`, only);
  });
}
