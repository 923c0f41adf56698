/** What the page and its workers send each other. Every call has a number, and
 * gets one answer with it. */

import type { Answer, Run } from './instance.js';
import type { Sight } from './types.js';

export type Call =
  | { call: 'start'; module: WebAssembly.Module; data: ArrayBuffer }
  | { call: 'put'; path: string; bytes: Uint8Array<ArrayBuffer> }
  | { call: 'remove'; path: string }
  | { call: 'ask'; request: unknown }
  | { call: 'draw-changed'; path: string; sights: readonly Sight[] }
  | { call: 'run'; args: string[]; input: string };

export type Sent = Call & { id: number };

export type Result = { ready: true } | Answer | Run | null;
export type Received = { id: number } & ({ result: Result } | { fault: string });
