/** Messages in a page speak of no command. */
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { inBrowserWords } from '../../src/engine/browser_words.js';

const root = join(process.cwd(), process.cwd().endsWith('web') ? '..' : '.');
const command = /`sheaf [a-z]+/;

/** What is written into files, or is a file's mark, and not said in the page;
 * the rest of a message of which only this part is on its line. */
const elsewhere = [
  'by-review', 'Written by', 'not a record of', 'not a file that', 'for `sheaf build`; version',
  'with `sheaf block WORD`', 'lesson beside the sequence', 'writes a form for what learners',
  'After the dictation',
];

/** The text literals of a C++ file, neighbours joined as the compiler does. */
function texts(source: string): string[] {
  const plain = source.replace(/^\s*\/\/.*$/gm, '');
  const found: string[] = [];
  for (const run of plain.matchAll(/(?:"(?:[^"\\\n]|\\.)*"\s*)+/g)) {
    const parts = run[0].match(/"(?:[^"\\\n]|\\.)*"/g) ?? [];
    found.push(parts.map((part) => part.slice(1, -1)).join('')
      .replaceAll('\\n', '\n').replaceAll('{}', 'oa'));
  }
  return found;
}

test('every message that names a command has other words for it here', () => {
  let said = 0;
  for (const entry of readdirSync(join(root, 'src'), { recursive: true })) {
    const path = String(entry);
    if (!/\.(cpp|h)$/.test(path) || path.startsWith('cli')) continue;
    for (const text of texts(readFileSync(join(root, 'src', path), 'utf8'))) {
      if (!command.test(text) || elsewhere.some((mark) => text.includes(mark))) continue;
      ++said;
      assert.doesNotMatch(inBrowserWords(text), command, `${path}: ${text}`);
    }
  }
  assert.ok(said > 8, `only ${said} were found`);
  for (const row of readFileSync(join(root, 'src/data/messages.tsv'), 'utf8').split('\n')) {
    if (row.startsWith('#')) continue;
    assert.doesNotMatch(inBrowserWords(row), command);
  }
});

test('a draft speaks of the page', () => {
  for (const text of texts(readFileSync(join(root, 'src/cli/draft_text.cpp'), 'utf8'))) {
    assert.doesNotMatch(inBrowserWords(text), command);
  }
});

test('what names no command stays as it is', () => {
  const text = 'write `words: ship`, a sheaf of them';
  assert.equal(inBrowserWords(text), text);
});
