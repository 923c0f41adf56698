/** Keeps the page for use without a network. All files of one version are taken
 * at once and checked against their SHA-256; each version has a store of its own,
 * so a page never has files of two. A newer one waits until no page uses the
 * older, or until the only page that is open lets it go (src/offline.ts). */

import { storeName, storePrefix } from './store_name.js';

// The build puts these in: the version, and all files with their integrity.
declare const SHEAF_VERSION: string;
declare const SHEAF_FILES: [path: string, integrity: string][];

const scope = self as unknown as ServiceWorkerGlobalScope;

// Other things may be kept under this address: only our own stores are removed.
const store = storeName(SHEAF_VERSION);
const base = new URL('./', scope.location.href).href;

async function takeOne(cache: Cache, path: string, integrity: string): Promise<void> {
  const address = new URL(path, base).href;
  // The page has put its large parts there already, checked as they are here, in a
  // worker that is gone: this one stays in memory as long as the page.
  if (await cache.match(address)) return;
  const answer = await fetch(address, { integrity, cache: 'no-cache' });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  await cache.put(address, answer);
}

async function takeAll(): Promise<void> {
  const cache = await caches.open(store);
  const taken = await Promise.allSettled(
    SHEAF_FILES.map(([path, integrity]) => takeOne(cache, path, integrity)));
  // One that is not what this version is made of fails the whole, and the browser
  // tries again later.
  const failed = taken.find((one) => one.status === 'rejected');
  if (failed) {
    await caches.delete(store);
    throw failed.reason;
  }
}

async function forgetOthers(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names
    .filter((name) => name.startsWith(storePrefix) && name !== store)
    .map((name) => caches.delete(name)));
}

/** The address as it is in the store; none where we do not keep it. */
function keptAddress(request: Request): string | null {
  const url = new URL(request.url);
  url.search = '';
  url.hash = '';
  if (url.href === base) return `${base}index.html`;
  return SHEAF_FILES.some(([path]) => `${base}${path}` === url.href) ? url.href : null;
}

async function answer(request: Request, address: string): Promise<Response> {
  const kept = await caches.match(address, { cacheName: store });
  return kept ?? fetch(request);
}

scope.addEventListener('install', (event) => { event.waitUntil(takeAll()); });
scope.addEventListener('activate', (event) => {
  event.waitUntil(forgetOthers().then(() => scope.clients.claim()));
});
scope.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET') return;
  const address = keptAddress(event.request);
  if (address !== null) event.respondWith(answer(event.request, address));
});

/** Whether one page alone is open. The one that was read anew just now may still
 * be counted twice for a moment. */
async function onlyOnePage(until: number): Promise<boolean> {
  while (Date.now() < until) {
    const pages = await scope.clients.matchAll({ type: 'window', includeUncontrolled: true });
    if (pages.length <= 1) return true;
    await new Promise((settle) => { setTimeout(settle, 100); });
  }
  return false;
}

// A page that has just been opened asks for the newer version, and says how long it
// waits before it begins its work. Where another is open as well, that one goes on
// with the older.
scope.addEventListener('message', (event) => {
  const { takeOverUntil } = event.data as { takeOverUntil?: number };
  if (takeOverUntil === undefined) return;
  event.waitUntil(onlyOnePage(takeOverUntil).then((alone) => {
    event.ports[0]?.postMessage(alone);
    return alone ? scope.skipWaiting() : undefined;
  }));
});
