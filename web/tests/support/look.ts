/** Pictures of the page, for people to look at: out/web-test. */

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { pictures } from './browser.js';

export async function lookAt(page: Page, name: string): Promise<void> {
  mkdirSync(pictures, { recursive: true });
  await page.screenshot({ path: join(pictures, `${name}.png`), animations: 'disabled' });
}
