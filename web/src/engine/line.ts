/** Calls to a worker, each with a promise of its answer. */

import type { Call, Received, Result } from './protocol.js';

/** Answers come in the order of the calls; a worker that breaks down fails all of
 * them. */
export class Line {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, {
    done: (result: Result) => void; failed: (fault: Error) => void }>();
  #next = 0;

  constructor(worker: Worker) {
    this.#worker = worker;
    worker.addEventListener('message', (event: MessageEvent<Received>) => {
      const received = event.data;
      const waiting = this.#waiting.get(received.id);
      this.#waiting.delete(received.id);
      if ('fault' in received) waiting?.failed(new Error(received.fault));
      else waiting?.done(received.result);
    });
    worker.addEventListener('error', (event) => {
      for (const { failed } of this.#waiting.values()) failed(new Error(event.message));
      this.#waiting.clear();
    });
  }

  /** Nobody waits for an answer. */
  get idle(): boolean { return this.#waiting.size === 0; }
  end(): void { this.#worker.terminate(); }

  /** `moved`: bytes of the call that are not copied but are gone from here. */
  call(call: Call, moved: ArrayBuffer[] = []): Promise<Result> {
    return new Promise((done, failed) => {
      const id = this.#next++;
      this.#waiting.set(id, { done, failed });
      this.#worker.postMessage({ ...call, id }, moved);
    });
  }
}
