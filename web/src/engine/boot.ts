/** Where the page has its large parts from: fetched beside it where it is
 * served, or unpacked from itself where it is the one file `sheaf.html`. The
 * build (web/build) writes both; nobody else needs to know which it is. */

import { Line } from './line.js';
import { unpack, type Packed } from './pack.js';
import { packedPart, wholePart, type PartSource } from './part.js';

/** How the build names a part in the page: a file beside it with its SHA-256, so
 * that files of two versions never run together, or so many bytes that taker.ts has
 * taken out of the page's own text. Both are gzip inside. */
interface PartPlace { file?: string; integrity?: string; size?: number }
interface Places {
  /** Of all content: the same for the same bytes. */
  version: string;
  /** Whether it is the one file. */
  single: boolean;
  parts: Partial<Record<'module' | 'data' | 'worker' | 'guide' | 'licences', PartPlace>>;
}
export type PartName = keyof Places['parts'];

let places: Places | null = null;
function readPlaces(): Places {
  // The page's own text, written by the build.
  places ??= JSON.parse(
    document.getElementById('sheaf-parts')?.textContent ?? '') as Places;
  return places;
}

/** Which build this is: twelve hexadecimal digits. */
export function buildVersion(): string { return readPlaces().version; }
/** Whether the page is the one file, which needs no server. */
export function isSingleFile(): boolean { return readPlaces().single; }
export function hasPart(name: PartName): boolean {
  return readPlaces().parts[name] !== undefined;
}

/** Says in words what a part that is missing or broken means. */
export async function whole<Made>(work: Promise<Made>): Promise<Made> {
  try {
    return await work;
  } catch (cause) {
    throw new Error(location.protocol === 'file:' && !isSingleFile()
      ? 'This page works only from a web server. Open sheaf.html instead, ' +
        'which needs none.'
      : 'Sheaf could not be loaded whole. Close this page and open it again.',
    { cause });
  }
}

/** Where a part is. Each is asked for once: who needs it twice keeps it. */
export function findPart(name: PartName): PartSource {
  const place = readPlaces().parts[name];
  if (!place) throw new Error(`This page was made without its part "${name}".`);
  if (place.file === undefined) return sheafTaker.give(name);
  return { address: new URL(place.file, document.baseURI).href,
    ...(place.integrity === undefined ? {} : { integrity: place.integrity }) };
}

let workerText: Promise<string> | null = null;

/** Starts another worker that runs src/engine/worker.ts. It is a classic worker
 * from a blob in both cases: from a file nothing else answers, and only such a
 * worker obeys the page's own rules on what may be loaded. */
export async function startWorker(name: string): Promise<Worker> {
  workerText ??= whole(wholePart(findPart('worker')).then((text) => text.text()));
  const address = URL.createObjectURL(
    new Blob([await workerText], { type: 'text/javascript' }));
  const worker = new Worker(address, { name });
  // The address may go once the worker has read it, and not before.
  worker.addEventListener('message', () => { URL.revokeObjectURL(address); },
    { once: true });
  return worker;
}

/** Read early, and taken apart only by those who want to read it. */
let guide: Promise<Blob> | null = null;
let notices: Promise<Blob> | null = null;

/** The guide's files by path ("index.html", "guide.css", "pictures/a.png"); none
 * where the page was built without it. */
export async function guideFiles(): Promise<Packed> {
  if (!hasPart('guide')) return new Map();
  guide ??= whole(packedPart(findPart('guide')));
  return unpack(await (await whole(wholePart(await guide))).arrayBuffer());
}

/** The notices of all that Sheaf is made of. */
export async function licenceText(): Promise<string> {
  if (!hasPart('licences')) return '';
  notices ??= whole(packedPart(findPart('licences')));
  return (await whole(wholePart(await notices))).text();
}

/** Reads what is not needed at first, so that a page at work asks for nothing; the
 * one file has it all. `store`: all parts are put there for later visits. A worker
 * reads: what reading and checking leaves behind goes with it. */
export async function loadRest(store: string | null): Promise<void> {
  if (isSingleFile()) return;
  const names = (['guide', 'licences'] as const).filter(hasPart);
  const more = store === null ? [] : (['module', 'data', 'worker'] as const).filter(hasPart);
  const sources = [...names, ...more].map(findPart);
  const line = new Line(await startWorker('sheaf-load'));
  const blobs = line.call({ call: 'fetch', sources, store })
    .then((result) => (result as { blobs: Blob[] }).blobs);
  const blob = (name: typeof names[number]): Promise<Blob> | null =>
    names.includes(name) ? whole(blobs.then((all) => all[names.indexOf(name)] as Blob)) : null;
  guide ??= blob('guide');
  notices ??= blob('licences');
  await Promise.allSettled([blobs, guide, notices]);
  line.end();
}
