/** A record file from the form that `record` writes and what was typed. */
import { folderOf } from '../folder/paths.js';

export interface Form {
  /** Words on one line, then each sentence. */
  dictated: string[];
  /** The keys above `wrong:` as the command wrote them, without `marked` and `absent`. */
  keys: string[];
  codes: string[];
}

/** Null where the text is no such form. */
export function readForm(text: string): Form | null {
  const lines = text.split('\n');
  const wrongAt = lines.indexOf('wrong:');
  if (wrongAt < 0) return null;
  const dictatedAt = lines.indexOf('# Dictated:');
  const dictated: string[] = [];
  for (const line of dictatedAt < 0 ? [] : lines.slice(dictatedAt + 1)) {
    const words = /^# {3}(.*)$/.exec(line)?.[1];
    if (words === undefined) break;
    dictated.push(words);
  }
  const keys = lines.slice(0, wrongAt)
    .filter(line => /^[a-z-]+:/.test(line) && !/^(?:marked|absent):/.test(line));
  const codes = lines.slice(wrongAt + 1).map(line => /^ {2}"?([^\s:"]+)"?:\s*$/.exec(line)?.[1] ?? '')
    .filter(code => code !== '');
  return { dictated, keys, codes };
}

export interface Entry { code: string; absent: boolean; wrong: string }

export interface RecordText {
  text: string;
  /** The line of each learner who was there, from 1. */
  lines: Map<string, number>;
}

/** Everyone in `entries` counts as marked, so it must hold everyone who was. */
export function recordText(form: Form, entries: readonly Entry[]): RecordText {
  const all = ['# What was written: errors only. Everything else counts as right for those who',
    '# are marked.'];
  if (form.dictated.length > 0) all.push('# Dictated:', ...form.dictated.map(line => `#   ${line}`));
  all.push(...form.keys, 'marked: all');
  const absent = entries.filter(entry => entry.absent).map(({ code }) => code);
  if (absent.length > 0) all.push(`absent: ${absent.join(', ')}`);
  all.push('wrong:');
  const lines = new Map<string, number>();
  for (const { code, absent: away, wrong } of entries) {
    if (away) continue;
    const typed = wrong.replace(/\s+/g, ' ').trim();
    const key = /^[A-Za-z0-9-]+$/.test(code) ? code : JSON.stringify(code);
    all.push(typed === '' ? `  ${key}:` : `  ${key}: ${asValue(typed)}`);
    lines.set(code, all.length);
  }
  return { text: `${all.join('\n')}\n`, lines };
}

/** Plain where that reads the same; in quotes where a sign means something. */
export function asValue(text: string): string {
  return /^\p{L}[\p{L}\p{N}'’ ,.=-]*$/u.test(text) ? text : JSON.stringify(text);
}

/** Where the record goes, and where it lies while it is typed: beside that, so
 * that the lesson is found from both in the same way. */
export function recordPlaces(classPath: string, made: string): { path: string; draft: string } {
  const name = made.slice(made.lastIndexOf('/') + 1);
  const folder = folderOf(classPath);
  return { path: `${folder}/records/${name}`, draft: `${folder}/${kDraftFolder}/${name}` };
}

/** No file of the teacher's can lie here: hidden folders are not taken in. */
const kDraftFolder = '.marking';

/** The typed list with one of its entries replaced, as a mend says it. */
export function replaced(typed: string, entry: string, by: string): string {
  const parts = typed.split(',');
  const at = parts.findIndex(part => part.trim() === entry);
  if (at < 0) return typed;
  parts[at] = (parts[at] ?? '').replace(entry, () => by);
  return parts.join(',');
}
