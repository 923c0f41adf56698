/** The learners and groups of a class file, for choosing one. Only codes are
 * taken from it: whatever else stands in their place is never shown. */

export interface Learner { code: string; group: string }
export interface Roll {
  title: string;
  learners: Learner[];
  groups: string[];
}

/** Initials in capitals, or figures with up to three letters, parts joined by
 * hyphens: as src/input/learner_code.cpp takes them. */
export function isCode(text: string): boolean {
  const letters = text.match(/\p{Script=Latin}/gu)?.length ?? 0;
  return /^[\p{Script=Latin}0-9]+(?:-[\p{Script=Latin}0-9]+)*$/u.test(text) && [...text].length <= 12 &&
    letters <= 3 && (/[0-9]/.test(text) || text === text.toUpperCase());
}

interface Line { indent: number; text: string }

export function rollOf(text: string): Roll {
  const lines: Line[] = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/)
    .map(line => ({ indent: line.length - line.trimStart().length, text: withoutRemark(line).trim() }))
    .filter(line => line.text !== '');
  const title = unquoted(/^title\s*:\s*(.*)$/.exec(
    lines.find(line => line.indent === 0 && line.text.startsWith('title'))?.text ?? '')?.[1] ?? '');
  const learners: Learner[] = [];
  const learnersAt = entriesUnder(lines, 'learners');
  for (const { key, value, inside } of learnersAt) {
    if (!isCode(key)) continue;
    const group = /(?:^|[{,\s])group\s*:\s*("[^"]*"|'[^']*'|[^,}]+)/.exec(value)?.[1] ??
      inside.map(line => /^group\s*:\s*(.+)$/.exec(line)?.[1]).find(found => found !== undefined);
    learners.push({ code: key, group: unquoted(group ?? '') });
  }
  const groups = entriesUnder(lines, 'groups').map(({ key }) => key);
  return { title, learners, groups };
}

interface Entry { key: string; value: string; inside: string[] }

/** The keys below a key of the left edge, however they are written: each on its
 * line, as a list with dashes, or all on one line with commas. */
function entriesUnder(lines: readonly Line[], name: string): Entry[] {
  const at = lines.findIndex(line => line.indent === 0 && new RegExp(`^${name}\\s*:`).test(line.text));
  const head = lines[at];
  if (head === undefined) return [];
  const beside = head.text.slice(head.text.indexOf(':') + 1).trim();
  const block: Line[] = [];
  for (const line of lines.slice(at + 1)) {
    // A list may stand at the left edge itself.
    if (line.indent === 0 && !line.text.startsWith('- ')) break;
    block.push(line);
  }
  if (beside !== '') return flowEntries([beside, ...block.map(line => line.text)].join(' '));
  const edge = Math.min(...block.map(line => line.indent));
  const entries: Entry[] = [];
  for (const line of block) {
    if (line.indent > edge) {
      entries.at(-1)?.inside.push(line.text);
      continue;
    }
    const pair = /^(?:-\s+)?("[^"]*"|'[^']*'|[^:]*?)\s*(?::\s*(.*))?$/.exec(line.text);
    if (pair) entries.push({ key: unquoted(pair[1] ?? ''), value: pair[2] ?? '', inside: [] });
  }
  return entries;
}

/** "[B7, C3]", "{B7: {group: x}, C3: }" and "B7, C3". */
function flowEntries(text: string): Entry[] {
  const inner = /^[[{](.*)[\]}]$/.exec(text)?.[1] ?? text;
  const entries: Entry[] = [];
  let depth = 0;
  let part = '';
  const finish = () => {
    const colon = part.indexOf(':');
    const key = unquoted((colon < 0 ? part : part.slice(0, colon)).trim());
    if (key !== '') entries.push({ key, value: colon < 0 ? '' : part.slice(colon + 1).trim(), inside: [] });
    part = '';
  };
  for (const sign of inner) {
    if (sign === '{' || sign === '[') ++depth;
    if (sign === '}' || sign === ']') --depth;
    if (sign === ',' && depth === 0) finish();
    else part += sign;
  }
  finish();
  return entries;
}

function withoutRemark(line: string): string {
  return line.trimStart().startsWith('#') ? '' : line.replace(/\s#.*$/, '');
}

function unquoted(text: string): string {
  const plain = text.trim();
  return /^(["']).*\1$/.test(plain) && plain.length > 1 ? plain.slice(1, -1) : plain;
}
