/** Where the page has its large parts from: fetched beside it where it is
 * served, or unpacked from itself where it is the one file `sheaf.html`. The
 * build (web/build) writes both; nobody else needs to know which it is. */

import { unpack, type Packed } from './pack.js';

/** What the worker needs. */
export interface Parts {
  /** The WebAssembly module. */
  module: ArrayBuffer;
  /** What comes with Sheaf, packed: see pack.ts. Paths are relative to
   * share/sheaf: "phonics.bin", "fonts/OFL.txt", "layouts/week.yaml". */
  data: ArrayBuffer;
}

/** How the build names a part in the page: a file beside it with its SHA-256, so
 * that files of two versions never run together, or a script element whose text
 * is the part in base64. Both are gzip inside. */
interface PartPlace { file?: string; integrity?: string; element?: string }
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

function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; ++i) bytes[i] = letters.charCodeAt(i);
  return bytes;
}

async function packedBytes(place: PartPlace): Promise<Uint8Array<ArrayBuffer>> {
  if (place.element !== undefined) {
    const element = document.getElementById(place.element);
    const bytes = fromBase64(element?.textContent ?? '');
    // Megabytes of text that nothing needs again.
    element?.remove();
    return bytes;
  }
  const answer = await fetch(place.file ?? '', {
    ...(place.integrity === undefined ? {} : { integrity: place.integrity }),
  });
  if (!answer.ok) throw new Error(`${place.file} is missing`);
  return new Uint8Array(await answer.arrayBuffer());
}

/** A large part of the page. Each is read once: who needs it twice keeps it. */
export async function loadPart(name: PartName): Promise<ArrayBuffer> {
  const place = readPlaces().parts[name];
  if (!place) throw new Error(`This page was made without its part "${name}".`);
  try {
    const packed = new Blob([await packedBytes(place)]).stream();
    return await new Response(
      packed.pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
  } catch (fault) {
    throw new Error(location.protocol === 'file:' && !isSingleFile()
      ? 'This page works only from a web server. Open sheaf.html instead, ' +
        'which needs none.'
      : 'Sheaf could not be loaded whole. Close this page and open it again.',
    { cause: fault });
  }
}

export async function loadParts(): Promise<Parts> {
  const [module, data] = await Promise.all([loadPart('module'), loadPart('data')]);
  return { module, data };
}

let workerText: Promise<string> | null = null;

/** Starts another worker that runs src/engine/worker.ts. It is a classic worker
 * from a blob in both cases: from a file nothing else answers, and only such a
 * worker obeys the page's own rules on what may be loaded. */
export async function startWorker(name: string): Promise<Worker> {
  workerText ??= loadPart('worker').then((bytes) => new TextDecoder().decode(bytes));
  const address = URL.createObjectURL(
    new Blob([await workerText], { type: 'text/javascript' }));
  const worker = new Worker(address, { name });
  // The address may go once the worker has read it, and not before.
  worker.addEventListener('message', () => { URL.revokeObjectURL(address); },
    { once: true });
  return worker;
}

let guide: Promise<Packed> | null = null;

/** The guide's files by path ("index.html", "guide.css", "pictures/a.png"); none
 * where the page was built without it. */
export async function guideFiles(): Promise<Packed> {
  if (!hasPart('guide')) return new Map();
  guide ??= loadPart('guide').then(unpack);
  return guide;
}

let notices: Promise<string> | null = null;

/** The notices of all that Sheaf is made of. */
export async function licenceText(): Promise<string> {
  if (!hasPart('licences')) return '';
  notices ??= loadPart('licences').then((bytes) => new TextDecoder().decode(bytes));
  return notices;
}

/** Reads what is not needed at first, so that a page at work asks for nothing. */
export async function loadRest(): Promise<void> {
  await Promise.allSettled([guideFiles(), licenceText()]);
}
