/** What a browser may offer for folders, and TypeScript's list does not have. */

interface WithPickers {
  showDirectoryPicker?: (wishes: { id: string; mode: 'read' | 'readwrite' }) =>
    Promise<FileSystemDirectoryHandle>;
}
interface WithPermission {
  queryPermission?: (wish: { mode: 'readwrite' }) => Promise<PermissionState>;
  requestPermission?: (wish: { mode: 'readwrite' }) => Promise<PermissionState>;
}

/** Whether a folder can be opened so that files can be written into it. */
export function canOpenFolders(): boolean {
  return typeof (globalThis as WithPickers).showDirectoryPicker === 'function';
}

/** The teacher chooses a folder, to be read; null: none was chosen. Throws
 * where the browser has the way and does not allow it here. */
export async function pickFolder(): Promise<FileSystemDirectoryHandle | null> {
  const pick = (globalThis as WithPickers).showDirectoryPicker;
  if (pick === undefined) return null;
  try {
    return await pick.call(globalThis, { id: 'sheaf', mode: 'read' });
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === 'AbortError') return null;
    throw fault;
  }
}

/** Asks the teacher, the first time that something is to be written. */
export async function mayWrite(folder: FileSystemDirectoryHandle): Promise<boolean> {
  const asked = folder as FileSystemDirectoryHandle & WithPermission;
  const wish = { mode: 'readwrite' } as const;
  try {
    if (await asked.queryPermission?.(wish) === 'granted') return true;
    // Where there is nothing to ask, writing itself says whether it may be.
    return asked.requestPermission === undefined || await asked.requestPermission(wish) === 'granted';
  } catch {
    return false;
  }
}

/** The handle of a file inside; the folders on the way are made. */
export async function fileHandle(folder: FileSystemDirectoryHandle, path: string):
Promise<FileSystemFileHandle> {
  const parts = path.split('/').filter(part => part !== '');
  const name = parts.pop() ?? '';
  let at = folder;
  for (const part of parts) at = await at.getDirectoryHandle(part, { create: true });
  return at.getFileHandle(name, { create: true });
}

export async function writeFile(handle: FileSystemFileHandle, content: Blob): Promise<File> {
  const stream = await handle.createWritable();
  try {
    await stream.write(content);
    await stream.close();
  } catch (fault) {
    // The file stays as it was: what is written so lands only when it is closed.
    await stream.abort().catch(() => undefined);
    throw fault;
  }
  return handle.getFile();
}

/** The other way to choose: a folder (`webkitdirectory`) or single files, to be
 * read and copied. Empty: the teacher chose none. */
export async function chooseFiles(folder: boolean): Promise<File[]> {
  return new Promise(resolve => {
    const input = document.createElement('input');
    input.type = 'file';
    input.multiple = true;
    if (folder) input.webkitdirectory = true;
    else input.accept = '.yaml,.yml,.txt,.png,.jpg,.jpeg';
    input.addEventListener('change', () => { resolve([...input.files ?? []]); }, { once: true });
    input.addEventListener('cancel', () => { resolve([]); }, { once: true });
    input.click();
  });
}
