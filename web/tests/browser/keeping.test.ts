// "Keep on this device": nothing without being asked, nothing readable, all of it
// back with the passphrase, gone in one press.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { built, newPage, openChromium, type Chromium } from '../support/browser.js';
import { chooseFolder, termFolder } from '../support/term.js';
import { servePages, type PageServer } from '../support/server.js';
import { hasPages, show, textOf, writeText } from '../support/steps.js';

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

const passphrase = 'four calm grey geese';
const lesson = 'pattern: sh\nwords: ship shop\n# quillback\n';

/** All that a page of this address has stored, but for what the service worker
 * keeps of the page itself. */
async function stored(page: Page): Promise<{ databases: string[]; records: number[][]; others: number }> {
  return page.evaluate(async () => {
    const databases = (await indexedDB.databases()).map(({ name }) => name ?? '');
    const records: number[][] = [];
    for (const name of databases) {
      const database = await new Promise<IDBDatabase>((settle, fail) => {
        const opening = indexedDB.open(name);
        opening.onsuccess = () => { settle(opening.result); };
        opening.onerror = () => { fail(opening.error ?? new Error(name)); };
      });
      for (const store of database.objectStoreNames) {
        const all = await new Promise<unknown[]>((settle) => {
          const asked = database.transaction(store).objectStore(store).getAll();
          asked.onsuccess = () => { settle(asked.result as unknown[]); };
        });
        for (const record of all) {
          for (const part of Object.values(record as Record<string, unknown>)) {
            if (part instanceof ArrayBuffer) records.push([...new Uint8Array(part)]);
            else records.push([...new TextEncoder().encode(part instanceof Uint8Array ? String.fromCharCode(...part) : String(part))]);
          }
        }
      }
      database.close();
    }
    return { databases, records, others: localStorage.length + sessionStorage.length + document.cookie.length };
  });
}

test('kept only when asked, unreadable, back with the passphrase, gone in one press', async (t) => {
  const { page, context, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await show(page, 'Folder');
  await chooseFolder(page, termFolder(t));
  await page.getByRole('listitem').filter({ hasText: 'week-11-oo.yaml' }).getByRole('button').click();
  await hasPages(page);
  await writeText(page, lesson);
  await page.waitForTimeout(500);
  const nothing = await stored(page);
  assert.deepEqual(nothing, { databases: [], records: [], others: 0 });

  await show(page, 'Folder');
  const keep = page.getByRole('region', { name: 'Keep on this device' });
  await keep.getByText('Keep this for my next visit').click();
  await keep.getByLabel('Passphrase', { exact: true }).fill('short');
  await keep.getByRole('button', { name: 'Keep on this device' }).click();
  await keep.getByText('Use at least 15 signs').waitFor();
  assert.deepEqual(await stored(page), nothing);
  await keep.getByLabel('Passphrase', { exact: true }).fill(passphrase);
  await keep.getByLabel('The same again').fill(passphrase);
  await keep.getByRole('button', { name: 'Keep on this device' }).click();
  await keep.getByText('✓ Kept at').waitFor();
  const kept = await stored(page);
  assert.equal(kept.others, 0);
  const bytes = kept.records.map((record) => Buffer.from(record));
  assert.ok(bytes.some((record) => record.length > 10_000), 'little is kept');
  for (const plain of ['quillback', 'Room4', 'class.yaml', 'learners', 'geese']) {
    for (const record of bytes) assert.ok(!record.includes(plain), plain);
  }
  await page.close();

  const next = await context.newPage();
  await next.goto(`${server.address}#folder`);
  const again = next.getByRole('region', { name: 'Keep on this device' });
  const field = again.getByLabel('Passphrase', { exact: true });
  await field.fill('four calm grey goose');
  await field.press('Enter');
  await again.getByText('That passphrase does not open what is kept here').waitFor();
  await field.fill(passphrase);
  await field.press('Enter');
  await next.getByText('Unlocked: ').waitFor();
  await next.locator('.cm-content', { hasText: 'quillback' }).waitFor({ state: 'attached' });
  assert.equal(await textOf(next), lesson);
  // It was not saved, and is told so.
  assert.match(await next.locator('.shell-top').innerText(), /not saved/i);
  await show(next, 'Folder');
  await next.getByText('These are copies').waitFor();
  await again.getByRole('button', { name: 'Remove everything kept here' }).click();
  await next.getByText('Nothing is kept in this browser any more.').waitFor();
  await next.waitForTimeout(5000);
  assert.deepEqual(await stored(next), nothing);
  assert.deepEqual(faults, []);
});
