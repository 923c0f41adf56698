/** What kind of file it is, by the keys at its left edge: the same keys decide
 * as in src/input/file_kind.cpp, the first one that only one kind has. */
import { baseName, extensionOf, folderOf, isPicture } from './paths.js';

export type Kind = 'lesson' | 'sequence' | 'class' | 'record' | 'layout' | 'sentences' | 'picture' | 'other';

const kOwnKeys: ReadonlyMap<string, Kind> = new Map<string, Kind>([
  ['sheets', 'layout'], ['steps', 'sequence'], ['learners', 'class'], ['groups', 'class'],
  ['date', 'record'], ['marked', 'record'], ['wrong', 'record'], ['written', 'record'],
  ['writing', 'record'], ['records', 'record'],
  ['words', 'lesson'], ['pattern', 'lesson'], ['sentences', 'lesson'], ['passage', 'lesson'],
]);

export function kindOf(path: string, text: string): Kind {
  if (isPicture(path)) return 'picture';
  for (const key of topKeys(text)) {
    const kind = kOwnKeys.get(key);
    if (kind !== undefined) return kind;
  }
  if (baseName(path) === 'sentences.txt') return 'sentences';
  if (extensionOf(path) !== 'txt' && baseName(folderOf(path)) === 'layouts') return 'layout';
  return 'other';
}

/** The keys at the left edge, in order. */
export function topKeys(text: string): string[] {
  const keys: string[] = [];
  for (const line of text.split(/\r\n|\r|\n/)) {
    const key = /^["']?([A-Za-z][\w-]*)["']?\s*:(?:\s|$)/.exec(line.replace(/^\ufeff/, ''))?.[1];
    if (key !== undefined) keys.push(key);
  }
  return keys;
}

/** What stands behind a key at the left edge, where it is all on that line. */
export function valueOf(text: string, key: string): string {
  const line = new RegExp(`^${key}[ \\t]*:[ \\t]*(.*)$`, 'm').exec(text.replace(/\r/g, ''))?.[1] ?? '';
  const plain = line.replace(/\s+#.*$/, '').trim();
  return /^["'].*["']$/.test(plain) ? plain.slice(1, -1) : /^[|>[{]/.test(plain) ? '' : plain;
}
