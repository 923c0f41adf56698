/** What the page and its workers send each other. Every call has a number, and
 * gets one answer with it. */

import type { Answer, Run } from './instance.js';
import type { Loaded, Parts, PartSource } from './part.js';
import type { Sight } from './types.js';

export type Call =
  | { call: 'load'; module: PartSource; data: PartSource }
  /** As they came: what is not needed at first. `store`: they are kept there. */
  | { call: 'fetch'; sources: PartSource[]; store: string | null }
  | { call: 'start' } & Parts
  | { call: 'put'; path: string; bytes: Uint8Array<ArrayBuffer> }
  | { call: 'remove'; path: string }
  | { call: 'ask'; request: unknown }
  | { call: 'draw-changed'; path: string; sights: readonly Sight[] }
  /** The bytes of a picture that was shown, for the next one; moved, not copied. */
  | { call: 'room'; bytes: ArrayBuffer }
  | { call: 'run'; args: string[]; input: string };

export type Sent = Call & { id: number };

export type Result = { ready: true } | Loaded | Answer | Run | { blobs: Blob[] } | null;
export type Received = { id: number } & ({ result: Result } | { fault: string });
