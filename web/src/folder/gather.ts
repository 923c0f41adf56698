/** Finding the files: in a folder that was opened, in a choice, in a drop. */
import { LeftOut } from './left_out.js';
import { enginePath, isHidden, isReadable, kLimits } from './paths.js';

export interface Found {
  path: string;
  file: File;
  /** Where the browser can write to it. */
  handle: FileSystemFileHandle | null;
}

export interface Gathered {
  name: string;
  files: Found[];
  leftOut: LeftOut;
}

class Gathering {
  readonly files: Found[] = [];
  readonly leftOut = new LeftOut();

  /** Whether a file of that name may come in at all; says why not. */
  wants(path: string): boolean {
    if (!isReadable(path)) {
      this.leftOut.otherKind(path);
    } else if (this.files.length >= kLimits.files) {
      this.leftOut.tooMany();
    } else {
      return true;
    }
    return false;
  }

  add(path: string, file: File, handle: FileSystemFileHandle | null): void {
    const known = enginePath(path);
    if (known === null) {
      this.leftOut.cannotRead(path);
    } else if (file.size > kLimits.bytes) {
      this.leftOut.tooLarge(path);
    } else {
      this.files.push({ path: known, file, handle });
    }
  }
}

export async function fromDirectory(folder: FileSystemDirectoryHandle): Promise<Gathered> {
  const all = new Gathering();
  const walk = async (at: FileSystemDirectoryHandle, path: string, depth: number): Promise<void> => {
    for await (const [name, inside] of at.entries()) {
      if (isHidden(name)) continue;
      const here = `${path}/${name}`;
      if (inside.kind === 'directory') {
        if (depth < kLimits.depth) await walk(inside, here, depth + 1);
        else all.leftOut.tooDeep();
      } else if (all.wants(here)) {
        try {
          all.add(here, await inside.getFile(), inside);
        } catch {
          all.leftOut.cannotRead(here);
        }
      }
    }
  };
  await walk(folder, '', 0);
  return { name: folder.name, files: all.files, leftOut: all.leftOut };
}

/** Files as <input> gives them: with `webkitRelativePath` where a folder was chosen. */
export function fromList(list: Iterable<File>): Gathered {
  const files = [...list].map(file => ({ file, path: file.webkitRelativePath || file.name }));
  // The chosen folder itself is the top: its name is on every path.
  const tops = new Set(files.map(({ path }) => path.split('/')[0]));
  const inOne = tops.size === 1 && files.every(({ path }) => path.includes('/'));
  const top = inOne ? [...tops][0] ?? '' : '';
  const all = new Gathering();
  for (const { file, path } of files) {
    const here = inOne ? path.slice(top.length + 1) : path;
    if (here.split('/').some(isHidden)) continue;
    if (all.wants(here)) all.add(here, file, null);
  }
  return { name: top, files: all.files, leftOut: all.leftOut };
}

/** What was dropped. The entries must be asked for while the event lasts, so
 * this begins at once and answers later. */
export function fromDrop(data: DataTransfer): Promise<Gathered> {
  const entries = [...data.items].filter(item => item.kind === 'file')
    .map(item => item.webkitGetAsEntry()).filter(entry => entry !== null);
  return gatherEntries(entries);
}

async function gatherEntries(entries: readonly FileSystemEntry[]): Promise<Gathered> {
  const all = new Gathering();
  const walk = async (entry: FileSystemEntry, path: string, depth: number): Promise<void> => {
    if (isHidden(entry.name)) return;
    if (entry.isDirectory) {
      if (depth >= kLimits.depth) { all.leftOut.tooDeep(); return; }
      for (const inside of await entriesOf(entry as FileSystemDirectoryEntry)) {
        await walk(inside, `${path}/${inside.name}`, depth + 1);
      }
    } else if (all.wants(path)) {
      try {
        const file = await new Promise<File>((resolve, reject) => {
          (entry as FileSystemFileEntry).file(resolve, reject);
        });
        all.add(path, file, null);
      } catch {
        all.leftOut.cannotRead(path);
      }
    }
  };
  const only = entries.length === 1 ? entries[0] : undefined;
  if (only?.isDirectory) {
    await walk(only, '', 0);
    return { name: only.name, files: all.files, leftOut: all.leftOut };
  }
  for (const entry of entries) await walk(entry, `/${entry.name}`, 0);
  return { name: '', files: all.files, leftOut: all.leftOut };
}

/** A reader gives a hundred or so at a time, and none at the end. */
async function entriesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => {
      reader.readEntries(resolve, reject);
    });
    if (some.length === 0) return all;
    all.push(...some);
  }
}
