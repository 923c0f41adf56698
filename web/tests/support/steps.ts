/** What a teacher does in the page, by the names that stand on it. */

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';

/** Pages of the packet that are drawn: white paper with ink on it. */
export async function drawnPages(page: Page): Promise<number> {
  return page.evaluate(() => [...document.querySelectorAll('canvas')].filter((canvas) => {
    if (canvas.width < 50 || canvas.height < 50) return false;
    const { data } = canvas.getContext('2d')?.getImageData(
      0, 0, canvas.width, canvas.height) ?? { data: [] };
    let dark = 0;
    for (let i = 0; i < data.length; i += 64) {
      if ((data[i] ?? 255) < 100 && (data[i + 3] ?? 0) > 200) dark += 1;
    }
    return dark > 20;
  }).length);
}

/** Playwright's own waiting takes the promise of a page's function for a yes. */
export async function until(page: Page, holds: () => Promise<boolean>, what: string): Promise<void> {
  for (let tries = 0; tries < 300; ++tries) {
    if (await holds()) return;
    await page.waitForTimeout(100);
  }
  assert.fail(`waited in vain: ${what}`);
}

/** From the first view to a draft of this pattern: three presses at most. */
export async function beginLesson(page: Page, pattern: string): Promise<void> {
  const box = page.getByRole('combobox', { name: 'Which pattern is next?' });
  await box.fill(pattern);
  await page.getByRole('option').first().waitFor();
  await box.press('Enter');
  await page.getByRole('button', { name: 'Save', exact: true }).waitFor();
}

/** There is a lesson and its pages are drawn; begins one where there is none. */
export async function hasPages(page: Page): Promise<void> {
  const save = page.getByRole('button', { name: 'Save', exact: true });
  const box = page.getByRole('combobox', { name: 'Which pattern is next?' });
  await save.or(box).first().waitFor();
  if (await box.isVisible()) await beginLesson(page, 'sh');
  // On a narrow screen one part is shown at a time.
  const pages = page.getByRole('tab', { name: /^Pages/ });
  const narrow = await pages.isVisible();
  if (narrow) await pages.click();
  await until(page, async () => await drawnPages(page) > 0, 'a page that is drawn');
  if (narrow) await page.getByRole('tab', { name: 'Write', exact: true }).click();
}

export async function showText(page: Page): Promise<Locator> {
  await page.getByRole('tab', { name: 'Text', exact: true }).click();
  const editor = page.getByRole('textbox', { name: 'Lesson text' });
  await editor.waitFor();
  return editor;
}

/** The whole of it, also where the editor has drawn only what is in sight. */
export async function textOf(page: Page): Promise<string> {
  return page.locator('.cm-content').evaluate((node) =>
    (node as unknown as { cmTile: { view: { state: { doc: { toString(): string } } } } })
      .cmTile.view.state.doc.toString());
}

/** Puts another text in place of the whole lesson. */
export async function writeText(page: Page, text: string): Promise<void> {
  const editor = await showText(page);
  await editor.focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.insertText(text);
}

/** All answers to what was typed are there; messages come when typing rests. */
export async function settled(page: Page): Promise<void> {
  await page.waitForTimeout(500);
  await page.waitForFunction(() => !document.querySelector('[aria-busy="true"]'));
}

/** What a press of this button gives to be saved. */
export async function saved(page: Page, press: () => Promise<void>): Promise<{
  name: string; bytes: Buffer; path: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  const path = await download.path();
  return { name: download.suggestedFilename(), bytes: readFileSync(path), path };
}

export async function savedPacket(page: Page, which: 'learner' | 'teacher'): Promise<Buffer> {
  const { bytes } = await saved(page, () =>
    page.getByRole('button', { name: `Packet for the ${which}` }).click());
  assert.equal(bytes.subarray(0, 5).toString(), '%PDF-');
  return bytes;
}

export const views = ['Lesson', 'Folder', 'Marking', 'Guide'] as const;
export async function show(page: Page, view: typeof views[number]): Promise<void> {
  await page.getByRole('navigation', { name: 'Views' })
    .getByRole('link', { name: view, exact: true }).click();
}

/** A little of everything: typing, another layout, a packet, every view. */
export async function workALittle(page: Page): Promise<void> {
  const editor = await showText(page);
  await editor.focus();
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\n# read aloud');
  await page.getByLabel('Layout', { exact: true }).filter({ visible: true }).selectOption('large-print');
  await settled(page);
  await savedPacket(page, 'teacher');
  for (const view of [...views].reverse()) {
    await show(page, view);
    await page.waitForTimeout(150);
  }
}
