/** Names and paths of the teacher's files, and which of them are taken in. */

export const kLimits = { files: 2000, bytes: 16 * 1024 * 1024, depth: 16 } as const;

const kTexts = ['yaml', 'yml', 'txt'];
const kPictures = ['png', 'jpg', 'jpeg'];

/** "a/B.YAML" → "yaml"; '' where the name has none. */
export function extensionOf(path: string): string {
  const name = baseName(path);
  const dot = name.lastIndexOf('.');
  return dot < 1 ? '' : name.slice(dot + 1).toLowerCase();
}

export function isText(path: string): boolean { return kTexts.includes(extensionOf(path)); }
export function isPicture(path: string): boolean { return kPictures.includes(extensionOf(path)); }
/** Whether Sheaf has a use for a file of that name. */
export function isReadable(path: string): boolean { return isText(path) || isPicture(path); }

/** Files and folders that programs keep for themselves; nobody misses them. */
export function isHidden(name: string): boolean { return name.startsWith('.'); }

/** "/a/b.yaml" → "b.yaml". */
export function baseName(path: string): string { return path.slice(path.lastIndexOf('/') + 1); }

/** "/a/b.yaml" → "/a"; "/b.yaml" → "". */
export function folderOf(path: string): string {
  return path.slice(0, Math.max(0, path.lastIndexOf('/')));
}

/** "/a/b.yaml" → "a/b.yaml": as it is shown to a teacher and given to a command. */
export function shown(path: string): string { return path.replace(/^\/+/, ''); }

/** The path as the engine has it: "lessons/a.yaml" → "/lessons/a.yaml". Null
 * where a part would lead out of the folder or cannot be a name. */
export function enginePath(path: string): string | null {
  const parts = path.split('/').filter(part => part !== '' && part !== '.');
  const bad = parts.length === 0 ||
    parts.some(part => part === '..' || /[\u0000-\u001f]/.test(part));
  return bad ? null : `/${parts.join('/')}`;
}

/** In the order in which a person counts: week-2 before week-10. */
export function byName(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true, sensitivity: 'base' }) || (a < b ? -1 : a > b ? 1 : 0);
}
