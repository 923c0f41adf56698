/** The module in Node, by the code that the page's worker runs. */

import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { join } from 'node:path';
import { Instance } from '../../src/engine/instance.js';
import { unpack, type Packed } from '../../src/engine/pack.js';
import { built } from '../support/browser.js';
import { hashOf, teachersFiles, type Made } from './native.js';

const partOf = (name: string): Buffer =>
  gunzipSync(readFileSync(join(built, `sheaf-${name}.bin`)));

export class InNode {
  private constructor(
    private readonly module: WebAssembly.Module, private readonly shipped: Packed) {}

  static async open(): Promise<InNode> {
    const data = partOf('data');
    return new InNode(await WebAssembly.compile(new Uint8Array(partOf('module'))),
      unpack(data.buffer.slice(data.byteOffset, data.byteOffset + data.length) as ArrayBuffer));
  }

  /** Another for each run, as the worker does it. */
  async fresh(): Promise<Instance> {
    const instance = await Instance.start(this.module, this.shipped);
    for (const [path, bytes] of teachersFiles()) instance.put(path, bytes);
    return instance;
  }

  async run(args: string[]): Promise<Made> {
    const { code, out, err, written } = (await this.fresh()).run(args);
    const pdfs: Record<string, string> = {};
    for (const { path, bytes } of written) {
      if (path.endsWith('.pdf')) pdfs[path] = hashOf(bytes);
    }
    return { code, out, err, pdfs };
  }

  /** As the buttons "Packet for …" do it. One instance serves several lessons. */
  async packets(lessons: [path: string, text: string][]): Promise<Record<string, string>[]> {
    const instance = await this.fresh();
    return lessons.map(([path, text]) => {
      instance.ask({ do: 'change', path, text });
      const { json, parts } = instance.ask({ do: 'packets', path });
      const { files } = json as { files: string[] };
      return Object.fromEntries(files.map((name, i) =>
        [name, hashOf(parts[i] ?? new Uint8Array())]));
    });
  }
}
