/** The lesson on the screen, for commands: they see files, and its text may not
 * be saved yet. */
import type { App } from '../contract.js';

/** While `work` runs, the engine has the open lesson as it is on the screen;
 * afterwards it has the saved one again, or none. */
export async function withOpenLesson<T>(app: App, work: () => Promise<T>): Promise<T> {
  const { path, text } = app.session;
  if (path === '') return work();
  await app.engine.putFile(path, text);
  try {
    return await work();
  } finally {
    const saved = await app.folder.read(path);
    if (saved !== null) await app.engine.putFile(path, saved);
    else await app.engine.removeFile(path);
  }
}
