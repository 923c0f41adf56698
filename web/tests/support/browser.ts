/** Debian's Chromium for the tests, and what its pages do that they must not. */

import { existsSync } from 'node:fs';
import type { TestContext } from 'node:test';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type BrowserContext, type BrowserContextOptions,
  type Page } from 'playwright-core';
import { watchOutside, type Outside } from './server.js';

/** What `make web` has built. Tests run with web/ as their folder. */
export const built = resolve(process.env['SHEAF_WEB'] ?? '../out/web');
/** Where pictures of the page go. */
export const pictures = resolve(process.env['SHEAF_WEB_PICTURES'] ?? '../out/web-test');
export const singleFile = pathToFileURL(resolve(built, 'sheaf.html')).href;

const program = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);

export interface Chromium { browser: Browser; outside: Outside; close(): Promise<void> }

/** All that is not on loopback goes to a proxy that answers nothing. */
export async function openChromium(more: string[] = []): Promise<Chromium> {
  if (!existsSync(resolve(built, 'index.html'))) {
    throw new Error('There is no page to test: run make web');
  }
  if (!program) throw new Error('There is no chromium: run make web-deps');
  const outside = await watchOutside();
  const browser = await chromium.launch({ executablePath: program, args: [
    '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
    '--disable-background-networking', '--disable-component-update', '--disable-sync',
    `--proxy-server=127.0.0.1:${outside.port}`, ...more] });
  return { browser, outside, async close() {
    await browser.close();
    await outside.stop();
  } };
}

export interface Watched {
  context: BrowserContext;
  page: Page;
  /** Requests of the page, its workers and frames, but blob: and data:. */
  requests: string[];
  /** Errors of scripts, of the console, and what the page's policy forbade. */
  faults: string[];
}

export const sizes = {
  laptop: { width: 1366, height: 768 },
  tablet: { width: 820, height: 1180 },
  phone: { width: 360, height: 740 },
} as const;

/** A page of its own, with nothing kept from any other; it ends with the test. */
export async function newPage(
  test: TestContext, browser: Browser, options: BrowserContextOptions = {},
): Promise<Watched> {
  const context = await browser.newContext(
    { viewport: sizes.laptop, locale: 'en-GB', ...options });
  test.after(() => context.close());
  const requests: string[] = [];
  const faults: string[] = [];
  context.on('request', (request) => {
    if (!/^(blob|data):/.test(request.url())) requests.push(request.url());
  });
  context.on('weberror', (fault) => { faults.push(fault.error().message); });
  context.on('console', (message) => {
    if (message.type() === 'error' || /Content.Security.Policy/i.test(message.text())) {
      faults.push(message.text());
    }
  });
  // The File System Access dialogs cannot be answered by a test; without them the
  // page takes the way that every browser has.
  await context.addInitScript(() => {
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker', 'showDirectoryPicker']) {
      Reflect.deleteProperty(window, name);
    }
  });
  const page = await context.newPage();
  return { context, page, requests, faults };
}
