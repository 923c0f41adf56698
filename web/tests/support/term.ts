/** A term of a class as a folder to open, and a stand-in for one on the disk. */

import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import type { TestContext } from 'node:test';
import type { BrowserContext, Page } from 'playwright-core';

/** The lessons that ship. Tests run with web/ as their folder. */
const lessons = '../lessons';

/** The term of ten weeks of an invented class, which has a lesson here, and a
 * lesson with a mistake; it ends with the test. */
export function termFolder(test: TestContext): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'sheaf-web-')), 'Room4');
  test.after(() => { rmSync(dirname(folder), { recursive: true }); });
  cpSync(join(lessons, 'demo-term'), folder, { recursive: true });
  const path = join(folder, 'class.yaml');
  writeFileSync(path, `${readFileSync(path, 'utf8')}lesson: week-10-o-e.yaml\n`);
  writeFileSync(join(folder, 'broken.yaml'), 'pattern: sh\nwrds: ship\n');
  writeFileSync(join(folder, 'plan.docx'), 'x');
  return folder;
}

export function textsOf(folder: string): Record<string, string> {
  const texts: Record<string, string> = {};
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    texts[relative(folder, path)] = readFileSync(path, 'utf8');
  }
  return texts;
}

/** Chooses the folder in the way that every browser has. */
export async function chooseFolder(page: Page, folder: string): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'Open a folder' }).click()]);
  await chooser.setFiles(folder);
  await page.getByRole('region', { name: 'Files' }).waitFor();
}

/** A folder of the browser's own stands in for one on the disk: opening one asks
 * the teacher, and a test cannot answer. */
export async function standInFolder(context: BrowserContext, name: string): Promise<void> {
  await context.addInitScript((called) => {
    Object.assign(window, { showDirectoryPicker: async () =>
      (await navigator.storage.getDirectory()).getDirectoryHandle(called, { create: true }) });
  }, name);
}

/** Writes into that folder as another program would. */
export async function putInto(page: Page, name: string, texts: Record<string, string>): Promise<void> {
  await page.evaluate(async ([called, files]) => {
    const top = await (await navigator.storage.getDirectory()).getDirectoryHandle(called, { create: true });
    for (const [path, text] of Object.entries(files)) {
      const parts = path.split('/');
      const last = parts.pop() ?? '';
      let at = top;
      for (const part of parts) at = await at.getDirectoryHandle(part, { create: true });
      const writing = await (await at.getFileHandle(last, { create: true })).createWritable();
      await writing.write(text);
      await writing.close();
    }
  }, [name, texts] as const);
}

/** Null: there is no such file. */
export async function textIn(page: Page, name: string, path: string): Promise<string | null> {
  return page.evaluate(async ([called, wanted]) => {
    try {
      const parts = wanted.split('/');
      const last = parts.pop() ?? '';
      let at = await (await navigator.storage.getDirectory()).getDirectoryHandle(called);
      for (const part of parts) at = await at.getDirectoryHandle(part);
      return await (await (await at.getFileHandle(last)).getFile()).text();
    } catch {
      return null;
    }
  }, [name, path] as const);
}
