/** Lets the browser keep the page (sw.ts), where it is served and may do so. */

import { buildVersion, isSingleFile } from './engine/boot.js';
import { storeName } from './store_name.js';

// How long a newer version has to find out whether it may take over, and how long
// it has to do so from then on: not while a page is at work.
const asking = 1000;
const taking = 3000;

function canKeep(): boolean {
  return !isSingleFile() && 'serviceWorker' in navigator && window.isSecureContext &&
    location.protocol.startsWith('http');
}

/** A version that waits takes over now, before anything was typed, if this is the
 * only page; the page is then read anew. True where that happens. */
async function newerTakesOver(registration: ServiceWorkerRegistration): Promise<boolean> {
  const waiting = registration.waiting;
  if (!waiting || !navigator.serviceWorker.controller) return false;
  return new Promise<boolean>((settle) => {
    navigator.serviceWorker.addEventListener('controllerchange', () => { settle(true); },
      { once: true });
    setTimeout(() => { settle(false); }, asking + taking);
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event: MessageEvent<boolean>) => { if (!event.data) settle(false); };
    waiting.postMessage({ takeOverUntil: Date.now() + asking }, [port2]);
  });
}

/** To be called once, before the page shows anything that could be lost. True:
 * the page is being read anew, and there is nothing more to do. */
export async function useNewest(): Promise<boolean> {
  if (!canKeep()) return false;
  try {
    const registration = await navigator.serviceWorker.getRegistration();
    if (registration && await newerTakesOver(registration)) {
      location.reload();
      return true;
    }
  } catch {
    // A browser that keeps nothing (a private window, a policy) still shows the page.
  }
  return false;
}

/** Where the files of this version are to be put; null where they are already, or
 * cannot be kept. */
export function storeToFill(): string | null {
  return canKeep() && !navigator.serviceWorker.controller ? storeName(buildVersion()) : null;
}

/** Settles with true once the page will open without a network as well. */
export async function keepOffline(): Promise<boolean> {
  if (!canKeep()) return isSingleFile();
  try {
    await navigator.serviceWorker.register('sw.js', { updateViaCache: 'none' });
    await navigator.serviceWorker.ready;
    return true;
  } catch {
    return false;
  }
}
