/** What a click on a mend does, wherever it stands. */
import type { App } from '../contract.js';
import type { FileEdits } from '../engine/types.js';

export async function mend(app: App, label: string, files: readonly FileEdits[]): Promise<void> {
  try {
    await app.session.applyFiles(files);
    app.say(label, 'done');
  } catch (fault) {
    app.say(fault instanceof Error ? fault.message : 'That could not be changed.', 'fault');
  }
}
