/** What axe finds on a page. */

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** WCAG 2.2 up to AA, and what axe's makers hold to be good practice. */
export async function checkAccess(page: Page, where: string): Promise<void> {
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(() =>
    (window as unknown as { axe: { run(node: Node, options: object): Promise<AxeResults> } })
      .axe.run(document, { runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a',
        'wcag21aa', 'wcag22aa', 'best-practice'] } }));
  assert.ok(passes.length > 10, `${where}: axe has looked at nothing`);
  assert.deepEqual(violations.map(({ id, nodes }) =>
    `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' | ')}`), [], where);
}

/** Nothing but what must (a page of the packet made larger) scrolls sideways. */
export async function checkWidth(page: Page, where: string): Promise<void> {
  const { wide, most } = await page.evaluate(() => ({
    most: document.documentElement.clientWidth,
    wide: document.documentElement.scrollWidth,
  }));
  assert.ok(wide <= most, `${where}: ${wide} pixels in a window of ${most}`);
}
