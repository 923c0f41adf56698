// Without a network: served once and then with the server gone, and from a file.

import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { built, newPage, openChromium, singleFile, type Chromium } from '../support/browser.js';
import { answers, servePages } from '../support/server.js';
import { hasPages, savedPacket, until, workALittle } from '../support/steps.js';

let chromium: Chromium;
before(async () => { chromium = await openChromium(); });
after(async () => { await chromium.close(); });

const isKept = (page: Page): Promise<boolean> => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  return registration.active?.state === 'activated' ||
    new Promise<boolean>((settle) => {
      registration.active?.addEventListener('statechange', () => { settle(true); });
    });
});
const versionOf = (page: Page): Promise<string> => page.evaluate(() =>
  (JSON.parse(document.getElementById('sheaf-parts')?.textContent ?? '{}') as
    { version: string }).version);
const stores = (page: Page): Promise<string[]> => page.evaluate(() => caches.keys());

test('once visited, the page opens and makes packets with the server gone', async (t) => {
  const server = await servePages(built);
  t.after(() => server.stop());
  const { page, context, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  assert.ok(await isKept(page));
  const there = await savedPacket(page, 'learner');
  await server.stop();
  assert.equal(await answers(server.address), false);
  await page.reload();
  await hasPages(page);
  await workALittle(page);
  await page.reload();
  await hasPages(page);
  const without = await savedPacket(page, 'learner');
  assert.ok(there.equals(without), 'the same lesson, another packet');
  // A fresh tab, too, by the name of the page itself.
  const other = await context.newPage();
  await other.goto(`${server.address}index.html`);
  await hasPages(other);
  assert.deepEqual(faults, []);
});

test('the one file makes the same packet as the served page', async (t) => {
  const server = await servePages(built);
  t.after(() => server.stop());
  const served = await newPage(t, chromium.browser);
  await served.page.goto(server.address);
  await hasPages(served.page);
  const one = await newPage(t, chromium.browser, { offline: true });
  await one.page.goto(singleFile);
  await hasPages(one.page);
  for (const which of ['learner', 'teacher'] as const) {
    const packet = await savedPacket(served.page, which);
    assert.ok(packet.equals(await savedPacket(one.page, which)), which);
  }
});

/** The same page as another version: one text of it is another, and so are its
 * checksums and its name. */
function otherVersion(folder: string): string {
  cpSync(built, folder, { recursive: true });
  const keeper = readFileSync(join(folder, 'sw.js'), 'utf8');
  const page = readFileSync(join(folder, 'index.html'), 'utf8');
  const version = /"version":"([0-9a-f]{12})"/.exec(page)?.[1] ?? '';
  const next = version.replace(/./g, (digit) => (digit === 'f' ? '0' : 'f'));
  const changed = page.replace(`"version":"${version}"`, `"version":"${next}"`);
  assert.notEqual(changed, page);
  writeFileSync(join(folder, 'index.html'), changed);
  writeFileSync(join(folder, 'sw.js'), keeper.replaceAll(version, next)
    .replaceAll(hash(page), hash(changed)));
  return next;
}
function hash(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

test('a newer version waits for the pages of the older, and none is mixed', async (t) => {
  const folder = mkdtempSync(join(tmpdir(), 'sheaf-web-'));
  t.after(() => { rmSync(folder, { recursive: true }); });
  const server = await servePages(built);
  t.after(() => server.stop());
  const { page, context, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  assert.ok(await isKept(page));
  const first = await versionOf(page);
  const beside = await context.newPage();
  await beside.goto(server.address);
  await hasPages(beside);

  const second = otherVersion(folder);
  server.serve(folder);
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });
  await until(page, () => page.evaluate(async () =>
    (await navigator.serviceWorker.getRegistration())?.waiting?.state === 'installed'),
    'a newer version that waits');
  // Two pages are open: both go on with what they have, reloaded or not.
  await page.reload();
  await hasPages(page);
  assert.equal(await versionOf(page), first);
  assert.equal((await stores(page)).length, 2);

  // Alone, a page that opens lets the newer one take over.
  await beside.close();
  // (On a machine that is busy it may be the opening after.)
  for (let tries = 0; tries < 5 && await versionOf(page) !== second; ++tries) {
    await page.reload();
    await hasPages(page);
  }
  assert.equal(await versionOf(page), second);
  assert.deepEqual(await stores(page), [`sheaf-page-${second}`]);
  assert.deepEqual(faults, []);
});

test('half of a newer version is not taken', async (t) => {
  const folder = mkdtempSync(join(tmpdir(), 'sheaf-web-'));
  t.after(() => { rmSync(folder, { recursive: true }); });
  const server = await servePages(built);
  t.after(() => server.stop());
  const { page } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  await hasPages(page);
  assert.ok(await isKept(page));
  const first = await versionOf(page);
  const second = otherVersion(folder);
  // The keeper is the new one already, the page still the old one.
  cpSync(join(built, 'index.html'), join(folder, 'index.html'));
  server.serve(folder);
  server.forget();
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update().catch(() => undefined);
  });
  while (!server.asked.includes('/index.html')) await page.waitForTimeout(50);
  // The browser may try again of itself at any time, so all is looked at in one go.
  const left = (): Promise<string[] | null> => page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const names = await caches.keys();
    return registration !== undefined && !registration.installing && !registration.waiting &&
      names.length === 1 ? names : null;
  });
  let names: string[] | null = null;
  await until(page, async () => (names = await left()) !== null, 'one store is left');
  assert.deepEqual(names, [`sheaf-page-${first}`]);
  await page.reload();
  await hasPages(page);
  assert.notEqual(await versionOf(page), second);
});
