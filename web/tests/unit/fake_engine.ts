/** An engine for tests that only keeps files; `run` answers as it is told. */
import type { Engine, RunResult } from '../../src/engine/types.js';

export type Run = (args: readonly string[], input: string, engine: FakeFiles) => RunResult | Promise<RunResult>;

export interface FakeFiles {
  files: Map<string, Uint8Array<ArrayBuffer>>;
  calls: string[][];
}

export function fakeEngine(run: Run = () => ({ code: 0, out: '', err: '', written: [] })): Engine & FakeFiles {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const calls: string[][] = [];
  const known = {
    files, calls,
    putFile(path: string, content: string | Uint8Array): Promise<void> {
      files.set(path, typeof content === 'string' ? new TextEncoder().encode(content) : new Uint8Array(content));
      return Promise.resolve();
    },
    removeFile(path: string): Promise<void> { files.delete(path); return Promise.resolve(); },
    readFile(path: string): Promise<Uint8Array<ArrayBuffer> | null> { return Promise.resolve(files.get(path) ?? null); },
    listFiles(): Promise<string[]> { return Promise.resolve([...files.keys()].sort()); },
    async run(args: string[], input = ''): Promise<RunResult> {
      calls.push(args);
      return run(args, input, known);
    },
  };
  // What a test does not use is not there: calling it fails the test.
  return known as unknown as Engine & FakeFiles;
}

export const text = (bytes: Uint8Array | null | undefined): string => bytes ? new TextDecoder().decode(bytes) : '';
