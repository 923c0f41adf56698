/** Finding a pattern by what a teacher types: "oa", "silent e", "long a". */
import type { Engine, PatternInfo } from '../engine/types.js';

export interface Found {
  /** What the lesson says: "oa", or "ai, ay" for two to tell apart. */
  value: string;
  title: string;
  /** Which words it is about. */
  about: string;
  rule: string;
  family: string;
}

function plain(text: string): string {
  return text.toLowerCase().replace(/[_/()]/g, ' ').replace(/\s+/g, ' ').trim();
}

function foundOf(pattern: PatternInfo): Found {
  return { value: pattern.id, title: pattern.name || pattern.id, about: pattern.remark, rule: pattern.rule, family: pattern.family };
}

/** How far it is from what was typed; 0 is the very name, null is not at all. */
export function distance(pattern: PatternInfo, typed: string): number | null {
  const wanted = plain(typed);
  if (wanted === '') return 0;
  const id = plain(pattern.id);
  const name = plain(pattern.name);
  if (id === wanted || name === wanted) return 0;
  // Every word must begin a word there: "o" finds "oa", and not "book". A lone
  // letter among others is a whole word: "long a" is not "u_e as long oo".
  const words = wanted.split(' ');
  const within = (text: string) => {
    const padded = ` ${text.replace(/[^\p{L}\p{N} -]/gu, ' ')} `;
    return words.every((word) => padded.includes(word.length === 1 && words.length > 1 ? ` ${word} ` : ` ${word}`));
  };
  if (` ${name} `.includes(` ${wanted} `) || ` ${id} `.includes(` ${wanted} `)) return 1;
  if (id.startsWith(wanted) || name.startsWith(wanted)) return 2;
  if (within(name) || within(id)) return 3;
  if (within(plain(pattern.family))) return 4;
  const remark = plain(pattern.remark);
  if (` ${remark.replace(/[^\p{L}\p{N} -]/gu, ' ')} `.includes(` ${wanted} `)) return 5;
  // What the family is also called stands for all of it, "long a" for every
  // vowel team: so it comes late.
  if (within(plain(pattern.terms))) return 6;
  if (within(`${name} ${plain(pattern.family)} ${remark} ${plain(pattern.rule)}`)) return 7;
  return null;
}

/** Several that are to be told apart: "ai, ay", "ow / ou", "sh vs ch". */
function together(patterns: readonly PatternInfo[], typed: string): Found | null {
  const parts = typed.split(/,|\/|\bvs\.?\s|\band\b|\+/).map((part) => part.trim()).filter((part) => part !== '');
  if (parts.length < 2 || parts.length > 4) return null;
  const chosen: PatternInfo[] = [];
  for (const part of parts) {
    const one = patterns.find((pattern) => distance(pattern, part) === 0);
    if (!one || chosen.includes(one)) return null;
    chosen.push(one);
  }
  const names = chosen.map((pattern) => pattern.name || pattern.id);
  const last = names.pop() ?? '';
  return {
    value: chosen.map((pattern) => pattern.id).join(', '),
    title: `${names.join(', ')} and ${last}`,
    about: 'a lesson that tells them apart',
    rule: '',
    family: 'side by side',
  };
}

/** Nearest first; all in their order where nothing was typed. `also` are names
 * of patterns that Sheaf itself finds for the words typed ("long a" → a_e, ai). */
export function search(patterns: readonly PatternInfo[], typed: string, also: readonly string[] = []): Found[] {
  if (plain(typed) === '') return patterns.map(foundOf);
  const ranked = patterns
    .map((pattern, order) => {
      const near = distance(pattern, typed);
      const named = also.indexOf(pattern.id);
      // What Sheaf finds comes in its own order, the commonest spelling first.
      const rank = named >= 0 && near !== 0 ? 0.5 : near;
      return { pattern, rank, order: named >= 0 ? named - patterns.length : order };
    })
    // Where Sheaf knows which are meant, others only blur the list.
    .filter((one): one is { pattern: PatternInfo; rank: number; order: number } =>
      one.rank !== null && (also.length === 0 || one.rank < 3))
    .sort((a, b) => a.rank - b.rank || a.order - b.order)
    .map((one) => foundOf(one.pattern));
  const both = together(patterns, typed);
  return both ? [both, ...ranked] : ranked;
}

/** The names of patterns that stand at the beginnings of the lines of
 * `sheaf patterns NAME`, where NAME stands for several or for none. */
export function namesIn(out: string, patterns: readonly PatternInfo[]): string[] {
  const known = new Set(patterns.map((pattern) => pattern.id));
  const names: string[] = [];
  for (const line of out.split('\n')) {
    const name = /^ {2}(\S+) {2,}/.exec(line)?.[1];
    if (name !== undefined && known.has(name) && !names.includes(name)) names.push(name);
  }
  return names;
}

/** Asks Sheaf which patterns the words lead to; none where it cannot say. */
export async function askedOf(engine: Engine, typed: string, patterns: readonly PatternInfo[]): Promise<string[]> {
  try {
    const answer = await engine.run(['patterns', typed.trim()]);
    return namesIn(`${answer.err}\n${answer.out}`, patterns);
  } catch {
    return [];
  }
}
