/** The worker: it owns one instance of the module and answers calls in order.
 * When an instance breaks down, the next call gets another with the same files:
 * nothing that a lesson says can end a teacher's session. */

import { Instance, kMachineFault, Refusal, type Answer } from './instance.js';
import { keepPart, loadParts, packedPart, type PartSource } from './part.js';
import type { Call, Received, Result, Sent } from './protocol.js';
import type { Pages, Sight } from './types.js';

// Given back when it has grown over this, between two calls.
const kMostBytes = 160 << 20;

let module: WebAssembly.Module | null = null;
let shipped = new Blob();
const files = new Map<string, Uint8Array<ArrayBuffer>>();
/** Requests that make a new instance answer as the old one did. */
const settings = new Map<string, unknown>();
let instance: Promise<Instance> | null = null;

async function fresh(): Promise<Instance> {
  if (module === null) throw new Error('nothing was started');
  // Read again for each: kept, it would be there twice as long as one lives.
  const made = await Instance.start(module, shipped);
  for (const [path, bytes] of files) made.put(path, bytes);
  for (const request of settings.values()) made.ask(request);
  return made;
}

/** Texts that are open and options: what `fresh` says again. */
function remember(request: unknown): void {
  const { do: what, path } = request as { do: string; path?: string };
  if (what === 'options') settings.set('options', request);
  if (what === 'change') settings.set(`text ${path}`, request);
  if (what === 'close') settings.delete(`text ${path}`);
}

/** The pages that were told last, until something is said that may change them. */
let told: { path: string; pages: Pages } | null = null;

/** The bytes of pictures that came back. A browser frees what nobody holds any
 * more only now and then, and each key would leave it some megabytes. */
const rooms: ArrayBuffer[] = [];
/** As many as are under way at once while somebody types. */
const kRooms = 2;

async function ask(request: unknown): Promise<Answer> {
  instance ??= fresh();
  const { do: what, path } = request as { do: string; path?: string };
  if (what === 'options' || what === 'change' || what === 'close') told = null;
  const made = await instance;
  const answer = what === 'draw' ? made.draw(request, rooms.pop()) : made.ask(request);
  remember(request);
  if (what === 'pages') told = { path: path ?? '', pages: answer.json as Pages };
  if (made.size > kMostBytes) instance = null;
  return answer;
}

async function drawChanged(path: string, sights: readonly Sight[]): Promise<Answer | null> {
  if (told?.path !== path) await ask({ do: 'pages', path });
  const pages = told?.pages.pages ?? [];
  for (const { page, dpi, look: before } of sights) {
    const look = pages[page]?.look;
    if (look === undefined || look === before) continue;
    const { json, parts } = await ask({ do: 'draw', path, page, dpi });
    return { json: { ...json as object, page, dpi, look }, parts };
  }
  return null;
}

/** One after another: they are in no hurry, and memory is taken for one at a time. */
async function fetchParts(sources: readonly PartSource[], store: string | null): Promise<Blob[]> {
  const blobs: Blob[] = [];
  for (const source of sources) {
    // A browser that keeps nothing still reads.
    const kept = store === null ? null : await keepPart(store, source).catch(() => null);
    blobs.push(kept ?? await packedPart(source));
  }
  return blobs;
}

async function answer(call: Call): Promise<Result> {
  switch (call.call) {
    case 'load':
      return loadParts(call.module, call.data);
    case 'fetch':
      return { blobs: await fetchParts(call.sources, call.store) };
    case 'start':
      module = call.module;
      shipped = call.data;
      instance = fresh();
      await instance;
      return { ready: true };
    case 'put':
      told = null;
      files.set(call.path, call.bytes);
      if (instance) (await instance).put(call.path, call.bytes);
      return null;
    case 'remove':
      told = null;
      files.delete(call.path);
      if (instance) (await instance).remove(call.path);
      return null;
    case 'ask':
      return ask(call.request);
    case 'draw-changed':
      return drawChanged(call.path, call.sights);
    case 'room':
      if (rooms.length < kRooms) rooms.push(call.bytes);
      return null;
    case 'run': {
      instance ??= fresh();
      const made = await instance;
      const run = made.run(call.args, call.input);
      for (const path of run.gone) files.delete(path);
      // What it wrote is there when the page says so, and not before.
      for (const { path } of run.written) {
        const before = files.get(path);
        if (before) made.put(path, before);
        else made.remove(path);
      }
      if (made.size > kMostBytes || run.code === kMachineFault) instance = null;
      return run;
    }
  }
}

async function reply({ id, ...call }: Sent): Promise<void> {
  let received: Received;
  try {
    received = { id, result: await answer(call) };
  } catch (fault) {
    // Anything else leaves memory in an unknown state.
    if (!(fault instanceof Refusal) || fault.spent) instance = null;
    received = { id, fault: fault instanceof Error ? fault.message : String(fault) };
  }
  const parts = 'result' in received && received.result !== null &&
    'parts' in received.result ? received.result.parts : [];
  self.postMessage(received, { transfer: parts.map((part) => part.buffer) });
}

let line: Promise<void> = Promise.resolve();
self.addEventListener('message', (event: MessageEvent<Sent>) => {
  line = line.then(() => reply(event.data));
});
