/** A teacher's folder for a test, copied from the lessons that ship. */

import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { TestContext } from 'node:test';
import type { Page } from 'playwright-core';
import { chooseFolder } from './term.js';
import { show } from './steps.js';

const lessons = resolve('../lessons');

/** The class of five with its three lessons. */
export function classFolder(test: TestContext): string {
  const folder = mkdtempSync(join(tmpdir(), 'harbour-'));
  test.after(() => { rmSync(folder, { recursive: true }); });
  for (const name of ['class.yaml', 'sh-ship.yaml', 'ai-ay-rain.yaml', 'i-e-kite.yaml']) {
    cpSync(join(lessons, name), join(folder, name));
  }
  return folder;
}

export async function openFolder(page: Page, folder: string): Promise<void> {
  await show(page, 'Folder');
  await chooseFolder(page, folder);
  await page.locator('.folder-file').first().waitFor({ state: 'attached' });
}
