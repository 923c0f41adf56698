/** Runs in the page: an engine of its own, as the page makes one, and checksums of
 * what it writes, so that no PDF has to travel. */

import { createEngine } from '../../src/engine/client.js';
import type { Engine } from '../../src/engine/types.js';

async function hashOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

let engine: Engine | null = null;

export interface InPage {
  begin(files: [path: string, base64: string][]): Promise<void>;
  run(args: string[]): Promise<{ code: number; out: string; err: string;
    pdfs: Record<string, string> }>;
  packets(path: string, text: string): Promise<Record<string, string>>;
}

const inPage: InPage = {
  async begin(files) {
    engine = createEngine();
    for (const [path, base64] of files) {
      await engine.putFile(path, Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)));
    }
  },
  async run(args) {
    if (!engine) throw new Error('begin first');
    const { written, ...said } = await engine.run(args);
    const pdfs: Record<string, string> = {};
    for (const path of written) {
      const bytes = await engine.readFile(path);
      if (bytes && path.endsWith('.pdf')) pdfs[path] = await hashOf(bytes);
      // Each run begins with the teacher's files alone.
      await engine.removeFile(path);
    }
    return { ...said, pdfs };
  },
  async packets(path, text) {
    if (!engine) throw new Error('begin first');
    await engine.change(path, text);
    const { files } = await engine.packets(path);
    await engine.close(path);
    const pdfs: Record<string, string> = {};
    for (const { name, bytes } of files) pdfs[name] = await hashOf(bytes);
    return pdfs;
  },
};
Object.assign(globalThis, { sheafInPage: inPage });
