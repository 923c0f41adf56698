// What axe finds, in every view and dialog at three sizes; the page at 320 pixels,
// which is a laptop's at 400%; without movement; and in colours of the system's.

import assert from 'node:assert/strict';
import { after, before, test, type TestContext } from 'node:test';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { checkAccess, checkWidth } from '../support/axe.js';
import { built, newPage, openChromium, sizes, type Chromium } from '../support/browser.js';
import { lookAt } from '../support/look.js';
import { servePages, type PageServer } from '../support/server.js';
import { hasPages, show, showText, views, writeText } from '../support/steps.js';

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

async function open(t: TestContext, options: BrowserContextOptions): Promise<Page> {
  const { page } = await newPage(t, chromium.browser, options);
  await page.goto(server.address);
  return page;
}

/** Everything that can be pressed is 24 pixels high and wide (WCAG 2.2, 2.5.8), but
 * what is hidden until it has the focus. */
async function checkTargets(page: Page, where: string): Promise<void> {
  const small = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>(
    'button, select, input:not([type=radio]):not([type=checkbox]), [role=tab], nav a, label:has(input)')]
    .filter((node) => node.checkVisibility({ visibilityProperty: true }) &&
      !node.closest('.cm-panels, .cm-tooltip'))
    .map((node) => ({ box: node.getBoundingClientRect(), name: node.textContent || node.outerHTML.slice(0, 80) }))
    .filter(({ box }) => box.width > 8 && box.height > 8 && (box.width < 24 || box.height < 24))
    .map(({ box, name }) => `${name}: ${Math.round(box.width)} x ${Math.round(box.height)}`));
  assert.deepEqual(small, [], where);
}

for (const [size, viewport] of Object.entries(sizes)) {
  test(`axe finds nothing, in every view: ${size}`, async (t) => {
    const page = await open(t, { viewport });
    await page.getByRole('combobox', { name: 'Which pattern is next?' }).waitFor();
    await checkAccess(page, 'the beginning');
    await checkWidth(page, 'the beginning');
    await lookAt(page, `${size}-beginning`);
    await hasPages(page);
    for (const view of views) {
      await show(page, view);
      await page.waitForTimeout(400);
      await checkAccess(page, view);
      await checkWidth(page, view);
      await checkTargets(page, view);
      await lookAt(page, `${size}-${view.toLowerCase()}`);
    }
    await show(page, 'Lesson');
    await writeText(page, 'pattern: sh\nwords: ship shop fihs\nsightwords: the\nlayout: none\n');
    await page.locator('.ms-mend').first().waitFor({ state: 'attached' });
    await page.waitForTimeout(400);
    await checkAccess(page, 'a lesson with mistakes');
    await checkWidth(page, 'a lesson with mistakes');
    await lookAt(page, `${size}-mistakes`);
    if (size === 'phone') {
      for (const tab of ['Pages', 'Messages']) {
        await page.getByRole('tab', { name: new RegExp(`^${tab}`) }).click();
        await page.waitForTimeout(300);
        await checkAccess(page, tab);
        await checkWidth(page, tab);
        await lookAt(page, `${size}-${tab.toLowerCase()}`);
      }
    }
  });

  test(`axe finds nothing, in dialogs: ${size}`, async (t) => {
    const page = await open(t, { viewport });
    await hasPages(page);
    const dialog = page.getByRole('dialog');
    const look = async (name: string): Promise<void> => {
      await dialog.waitFor();
      await page.waitForTimeout(300);
      await checkAccess(page, name);
      await checkWidth(page, name);
      await lookAt(page, `${size}-${name}`);
      await page.keyboard.press('Escape');
      await dialog.waitFor({ state: 'detached' });
    };
    await page.getByRole('button', { name: 'New lesson', exact: true }).click();
    await look('new-lesson');
    await page.keyboard.press('Control+p');
    await look('print');
    await writeText(page, 'pattern: sh\nwords: ship shop fish\nsightwords: the\n');
    const messages = page.getByRole('tab', { name: /^Messages/ });
    if (await messages.isVisible()) await messages.click();
    await page.getByRole('button', { name: 'What does this mean?' }).first().click();
    await look('meaning');
  });
}

test('at 400% nothing scrolls sideways, and all is there', async (t) => {
  const page = await open(t, { viewport: { width: 320, height: 256 } });
  await page.getByRole('combobox', { name: 'Which pattern is next?' }).waitFor();
  await checkWidth(page, 'the beginning');
  await hasPages(page);
  for (const view of views) {
    await show(page, view);
    await page.waitForTimeout(300);
    await checkWidth(page, view);
    await lookAt(page, `400-percent-${view.toLowerCase()}`);
  }
  await show(page, 'Lesson');
  await showText(page);
  await checkWidth(page, 'the text');
  for (const tab of ['Pages', 'Messages', 'Write']) {
    await page.getByRole('tab', { name: new RegExp(`^${tab}`) }).click();
    await checkWidth(page, tab);
  }
});

test('text of twice the size stays readable', async (t) => {
  const page = await open(t, {});
  await hasPages(page);
  await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
  for (const view of views) {
    await show(page, view);
    await page.waitForTimeout(200);
    await checkWidth(page, view);
  }
});

test('nothing moves where movement is not wanted', async (t) => {
  const page = await open(t, { reducedMotion: 'reduce' });
  await hasPages(page);
  for (const view of views) {
    await show(page, view);
    await page.waitForTimeout(100);
    const moving = await page.evaluate(() => [
      ...document.getAnimations().map((one) => String((one as CSSAnimation).animationName ?? one.id)),
      ...[...document.querySelectorAll('*')].filter((node) => {
        const { scrollBehavior, transitionDuration, animationName } = getComputedStyle(node);
        return scrollBehavior === 'smooth' || animationName !== 'none' &&
          !node.closest('.cm-editor') ||
          transitionDuration.split(',').some((one) => parseFloat(one) > 0.01);
      }).map((node) => node.outerHTML.slice(0, 80)),
    ]);
    assert.deepEqual(moving, [], view);
  }
});

test('in colours of the system all borders, marks and the focus are there', async (t) => {
  const page = await open(t, { forcedColors: 'active' });
  await hasPages(page);
  await writeText(page, 'pattern: sh\nwords: ship shop fish\nsightwords: the\n');
  await page.locator('.ms-mend').first().waitFor();
  await page.waitForTimeout(300);
  for (const view of views) {
    await show(page, view);
    await page.waitForTimeout(300);
    await checkAccess(page, view);
    await lookAt(page, `forced-colors-${view.toLowerCase()}`);
  }
  await show(page, 'Lesson');
  // Buttons keep an edge, since their ground is gone.
  const bare = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>('button.button')]
    .filter((node) => node.checkVisibility())
    .filter((node) => {
      const style = getComputedStyle(node);
      return parseFloat(style.borderTopWidth) < 1 || style.borderTopStyle === 'none';
    }).map((node) => node.textContent));
  assert.deepEqual(bare, []);
  // The underline of a mistake is a line, and not only a ground.
  const line = await page.locator('.cm-lintRange').first().evaluate((node) => {
    const style = getComputedStyle(node);
    return `${style.textDecorationLine} ${style.borderBottomStyle} ${style.backgroundImage}`;
  });
  assert.match(line, /underline|solid|dashed|dotted|double|url|gradient/);
});
