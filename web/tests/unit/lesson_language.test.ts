/** What is coloured as what, and where a new line begins. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { StringStream } from '@codemirror/language';
import { EditorState } from '@codemirror/state';
import { indentBelow, lessonReader } from '../../src/lesson/language.js';

/** "key:words" for each piece that is coloured, line after line. */
function read(text: string): string[][] {
  const state = lessonReader.startState?.(2);
  assert.ok(state);
  return text.split('\n').map((line) => {
    const stream = new StringStream(line, 2, 2);
    const pieces: string[] = [];
    if (line === '') lessonReader.blankLine?.(state, 2);
    while (!stream.eol()) {
      stream.start = stream.pos;
      const kind = lessonReader.token(stream, state);
      assert.ok(stream.pos > stream.start, `no step in ${JSON.stringify(line)}`);
      if (kind) pieces.push(`${kind}:${stream.current()}`);
    }
    return pieces;
  });
}

test('a key, its words and a remark', () => {
  assert.deepEqual(read('words: ship shed  # the first two'), [[
    'key:words', 'sign::', 'word:ship', 'word:shed', 'remark:# the first two']]);
});

test('a number is one only by itself', () => {
  assert.deepEqual(read('step: 12\nwords: 3rd'), [
    ['key:step', 'sign::', 'number:12'], ['key:words', 'sign::', 'word:3rd']]);
});

test('a sign of number without a blank before it is no remark', () => {
  assert.deepEqual(read('title: Class#2'), [['key:title', 'sign::', 'word:Class#2']]);
});

test('lines of text are text, whatever stands in them, and end with their indent', () => {
  assert.deepEqual(read('rhyme: |\n  I spy: a {kite} # here\n\n  too\nset: b'), [
    ['key:rhyme', 'sign::', 'sign:|'],
    ['line:I spy: a ', 'marked:{kite}', 'line:# here'],
    [],
    ['line:too'],
    ['key:set', 'sign::', 'word:b'],
  ]);
});

test('lines of text below a key below a key end at the next key', () => {
  assert.deepEqual(read('passage:\n  text: |\n    Meg slept.\n  questions: |\n    Was it wet?').map((line) => line[0]), [
    'key:passage', 'key:text', 'line:Meg slept.', 'key:questions', 'line:Was it wet?']);
});

test('an item of a list may hold keys with lines of text', () => {
  assert.deepEqual(read('- text: |\n    One.\n  other: two\n- three').map((line) => line.join(' ')), [
    'sign:- key:text sign:: sign:|', 'line:One.', 'key:other sign:: word:two', 'sign:- word:three']);
});

test('braces hold keys, brackets hold words', () => {
  assert.deepEqual(read('split: {boat: b.oa.t}')[0], [
    'key:split', 'sign::', 'sign:{', 'key:boat', 'sign::', 'word:b.oa.t', 'sign:}']);
  assert.deepEqual(read('words: [ship, shed]')[0], [
    'key:words', 'sign::', 'sign:[', 'word:ship', 'sign:,', 'word:shed', 'sign:]']);
});

test('quotes without an end, lone braces and odd signs do not stop the reader', () => {
  for (const line of ['title: "Week', "title: 'Week", 'words: }{][', ': :', '-', '   ', '\t|', 'a: |x', '{', '}']) {
    read(line);
    read(`rhyme: |\n  ${line}`);
  }
});

test('a new line below a key that opens something goes further in', () => {
  const below = (text: string) => indentBelow(EditorState.create({ doc: text }), text.length);
  assert.equal(below('sentences: |'), 2);
  assert.equal(below('sentences: |  # six'), 2);
  assert.equal(below('passage:'), 2);
  assert.equal(below('passage:\n  text: |'), 4);
  assert.equal(below('  The dog is in.'), 2);
  assert.equal(below('words: ship'), 0);
});
