/** Files on the teacher's device, by the File System Access interface where a
 * browser has it, else by <input type=file> and downloads. */

/** The part of it that is used here; the handles are in TypeScript's own list. */
interface Pickers {
  showOpenFilePicker?(wishes: unknown): Promise<FileSystemFileHandle[]>;
  showSaveFilePicker?(wishes: unknown): Promise<FileSystemFileHandle>;
}
const pickers = (): Pickers => window as unknown as Pickers;

const kinds = [{ description: 'Lessons', accept: { 'text/plain': ['.yaml', '.yml', '.txt'] } }];

/** A lesson is a page of text; what is larger than this is something else. */
export const mostBytes = 1024 * 1024;

export interface Picked { name: string; text: string; handle: FileSystemFileHandle | null }

/** Why a file cannot be a lesson, in words; '' where it can. */
export function refused(file: { name: string; size: number }): string {
  if (!/\.(ya?ml|txt)$/i.test(file.name)) {
    return `${file.name} is not a lesson: a lesson's name ends in .yaml.`;
  }
  if (file.size > mostBytes) return `${file.name} is too large to be a lesson.`;
  return '';
}

export async function readPicked(file: File, handle: FileSystemFileHandle | null): Promise<Picked> {
  const why = refused(file);
  if (why !== '') throw new Error(why);
  return { name: file.name, text: await file.text(), handle };
}

function stopped(fault: unknown): boolean {
  return fault instanceof DOMException && fault.name === 'AbortError';
}

/** null: the teacher chose none. */
export async function pickFile(): Promise<Picked | null> {
  const open = pickers().showOpenFilePicker;
  if (open) {
    try {
      const [handle] = await open.call(window, { types: kinds, id: 'lessons' });
      return handle ? await readPicked(await handle.getFile(), handle) : null;
    } catch (fault) {
      if (stopped(fault)) return null;
      // Some places (a page within a page) have the name and not the right.
      if (!(fault instanceof DOMException && fault.name === 'SecurityError')) throw fault;
    }
  }
  return new Promise((settle, fail) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.yaml,.yml,.txt';
    input.addEventListener('cancel', () => settle(null), { once: true });
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file) readPicked(file, null).then(settle, fail);
      else settle(null);
    }, { once: true });
    input.click();
  });
}

export async function writeTo(handle: FileSystemFileHandle, text: string): Promise<void> {
  const stream = await handle.createWritable();
  await stream.write(text);
  await stream.close();
}

/** A new place for it. 'none': no such way here; null: the teacher chose none. */
export async function pickPlace(name: string): Promise<FileSystemFileHandle | null | 'none'> {
  const save = pickers().showSaveFilePicker;
  if (!save) return 'none';
  try {
    return await save.call(window, { suggestedName: name, types: kinds, id: 'lessons' });
  } catch (fault) {
    if (stopped(fault)) return null;
    if (fault instanceof DOMException && (fault.name === 'SecurityError' || fault.name === 'NotAllowedError')) return 'none';
    throw fault;
  }
}

/** A dropped file, with a handle to save it by where the browser gives one.
 * Must be called before the event is over. */
export function droppedFile(data: DataTransfer): Promise<Picked> | null {
  const item = [...data.items].find((one) => one.kind === 'file');
  const file = item?.getAsFile();
  if (!item || !file) return null;
  if (item.webkitGetAsEntry()?.isDirectory) return null;
  const asked = (item as unknown as { getAsFileSystemHandle?(): Promise<FileSystemHandle | null> }).getAsFileSystemHandle?.();
  return (async () => {
    let handle: FileSystemFileHandle | null = null;
    try {
      const found = await asked;
      if (found?.kind === 'file') handle = found as FileSystemFileHandle;
    } catch {
      // Without a handle, saving is a download.
    }
    return readPicked(file, handle);
  })();
}

/** Offers it as a download. */
export function offerDownload(name: string, content: string | Uint8Array<ArrayBuffer>, type?: string): void {
  const kind = type ?? (name.endsWith('.pdf') ? 'application/pdf' : 'text/plain;charset=utf-8');
  const address = URL.createObjectURL(new Blob([content], { type: kind }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.hidden = true;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser has begun by then; a minute is long for any disk.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
