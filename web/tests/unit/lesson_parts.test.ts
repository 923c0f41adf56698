/** What editor, pages and messages work out without a page. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Action, Message, Offer, Severity } from '../../src/engine/types.js';
import { orderedActions, together } from '../../src/lesson/deeds.js';
import { smallEdit } from '../../src/lesson/editor.js';
import { blocksOf } from '../../src/lesson/explaining.js';
import { Follower, kHandsOff, type Sight } from '../../src/lesson/follow.js';
import { editText } from '../../src/lesson/moves.js';
import { completionsOf } from '../../src/lesson/offers.js';
import { dpiFor, labelOf } from '../../src/lesson/page_canvas.js';
import { matched } from '../../src/lesson/pages.js';
import { nextMessage } from '../../src/lesson/underlines.js';
import { certainMends, countWords, inOrder, pieces, where } from '../../src/lesson/words.js';

function message(severity: Severity, from: number, edit = '', certain = true): Message {
  return {
    severity, name: 'x', path: '/a.yaml', range: { from, to: from + 2 }, line: from + 1, column: 1,
    text: `at ${from}`, help: '', remarks: [],
    fixes: edit === '' ? [] : [{ label: edit, certain,
      files: [{ path: '/a.yaml', edits: [{ from, to: from + 2, insert: edit }] }] }],
  };
}

test('errors come first, then by place; other files after this one', () => {
  const other = { ...message('error', 0), path: '/b.yaml' };
  const order = inOrder([message('note', 1), message('warning', 9), other, message('error', 7),
    message('error', 3)], '/a.yaml').map((one) => `${one.severity} ${one.path} ${one.range?.from}`);
  assert.deepEqual(order, ['error /a.yaml 3', 'error /a.yaml 7', 'error /b.yaml 0',
    'warning /a.yaml 9', 'note /a.yaml 1']);
});

test('counts in words', () => {
  assert.equal(countWords([]), 'nothing to mend');
  assert.equal(countWords([message('error', 1), message('error', 2), message('note', 3)]),
               '2 to be mended, 1 note');
  assert.equal(countWords([message('warning', 1), message('note', 3), message('note', 4)]),
               '1 worth a look, 2 notes');
});

test('where: the line, and the file if it is another', () => {
  assert.equal(where(message('note', 4), '/a.yaml'), 'line 5');
  assert.equal(where(message('note', 4), '/b.yaml'), 'a.yaml, line 5');
  assert.equal(where({ ...message('note', 4), line: null }, '/a.yaml'), '');
});

test('words between backticks; one alone is only a sign', () => {
  assert.deepEqual(pieces('`a` and `b`'), ['', 'a', ' and ', 'b', '']);
  assert.deepEqual(pieces('the sign ` alone'), ['the sign ` alone']);
  assert.deepEqual(pieces('`a` and `'), ['', 'a', ' and `']);
});

test('all certain mends in one go, none twice, none that is only likely', () => {
  const { files, count } = certainMends([
    message('error', 10, 'TEN'), message('error', 2, 'two'), message('warning', 3, 'near'),
    message('warning', 20, 'maybe', false), message('note', 30),
  ]);
  assert.equal(count, 2);
  assert.equal(files.length, 1);
  assert.equal(editText('0123456789abcdef', files[0]?.edits ?? []), '01two456789TENcdef');
});

test('to the next message and round, and back', () => {
  const all = [message('error', 10), message('note', 2), { ...message('error', 5), path: '/b.yaml' }];
  assert.equal(nextMessage(all, '/a.yaml', 0, 1)?.range?.from, 2);
  assert.equal(nextMessage(all, '/a.yaml', 2, 1)?.range?.from, 10);
  assert.equal(nextMessage(all, '/a.yaml', 10, 1)?.range?.from, 2);
  assert.equal(nextMessage(all, '/a.yaml', 10, -1)?.range?.from, 2);
  assert.equal(nextMessage(all, '/a.yaml', 2, -1)?.range?.from, 10);
  assert.equal(nextMessage([], '/a.yaml', 0, 1), null);
});

test('mends come before what may also be wanted', () => {
  const action = (title: string, of: number): Action => ({ title, message: of, files: [], certain: false });
  assert.deepEqual(orderedActions([action('a', -1), action('b', 0), action('c', -1), action('d', 2)])
    .map((one) => one.title), ['b', 'd', 'a', 'c']);
  // And then the mends, but nothing else, of the rest of the line.
  assert.deepEqual(together([action('a', -1), action('b', 0)],
    [action('b', 0), action('e', 1), action('f', -1)]).map((one) => one.title), ['b', 'a', 'e']);
});

test('one small edit makes the one text of the other', () => {
  for (const [before, after] of [['abc', 'abc'], ['abc', 'aXc'], ['aaa', 'aa'], ['', 'x'], ['x', ''],
    ['words: a\n', 'words: a b\n'], ['abab', 'ababab']] as const) {
    const edits = smallEdit(before, after);
    assert.equal(editText(before, edits), after);
    assert.equal(edits.length, before === after ? 0 : 1);
  }
  assert.deepEqual(smallEdit('abc', 'aXc'), [{ from: 1, to: 2, insert: 'X' }]);
});

test('an explanation in parts', () => {
  assert.deepEqual(blocksOf('bad-thing: a thing that is bad\n\nA line has a slip. What\nbelongs to it is lost.\n\n'
    + 'Wrong:\n    wrods: |\n      ship\n\n      shed\nMended:\n    words: ship\n'), [
    { kind: 'text', text: 'bad-thing: a thing that is bad' },
    { kind: 'text', text: 'A line has a slip. What belongs to it is lost.' },
    { kind: 'head', text: 'Wrong:' },
    { kind: 'example', text: 'wrods: |\n  ship\n\n  shed' },
    { kind: 'head', text: 'Mended:' },
    { kind: 'example', text: 'words: ship' },
  ]);
});

test('offers begin at one place and keep the order', () => {
  const offer = (label: string, from: number): Offer =>
    ({ kind: 'word', label, range: { from, to: 9 }, text: label, detail: '', more: '' });
  const made = completionsOf([offer('ship', 7), offer('shed', 7)], 9);
  assert.equal(made?.from, 7);
  assert.deepEqual(made.options.map((option) => option.label), ['ship', 'shed']);
  assert.ok((made.options[0]?.boost ?? 0) > (made.options[1]?.boost ?? 0));
  assert.equal(completionsOf([], 9), null);
  const pattern = completionsOf([{ ...offer('a_e', 7), kind: 'pattern', detail: 'silent e' }], 9);
  assert.equal(pattern?.options[0]?.label, 'a_e silent e');
  assert.equal(pattern.options[0]?.displayLabel, 'a_e');
});

test('a page is drawn as sharp as the screen, within bounds', () => {
  const page = { label: '', teacher: false, width: 612, height: 792, look: '' };
  assert.equal(dpiFor(page, 612, 1), 72);
  assert.equal(dpiFor(page, 816, 1.5), 144);
  assert.equal(dpiFor(page, 2000, 3), 220);
  assert.equal(dpiFor(page, 10, 1), 30);
});

test('the name of a page begins large and has no hyphens of a key', () => {
  const named = (label: string) => labelOf({ label, teacher: false, width: 1, height: 1, look: '' });
  assert.equal(named('sound-boxes 2'), 'Sound boxes 2');
  assert.equal(named('blank'), 'Blank');
  assert.equal(named('key 1-4'), 'Key 1-4');
});

test('a page that only moved keeps its picture', () => {
  assert.deepEqual(matched(['a', 'b', 'c'], ['a', 'x', 'b', 'c']), [0, 3, 1, 2]);
  assert.deepEqual(matched(['a', 'b', 'c'], ['a', 'c']), [0, 2]);
  assert.deepEqual(matched(['a', 'a'], ['a', 'a', 'a']), [0, 1, 2]);
  assert.deepEqual(matched(['a', 'b'], ['a', 'B']), [0, 1]);
  assert.deepEqual(matched([], ['a', 'b']), [0, 1]);
  // None is used twice, whatever the looks.
  for (const looks of [['b', 'a'], ['a', 'b', 'a', 'b'], ['c', 'c', 'a'], ['b', 'b', 'b']]) {
    const places = matched(['a', 'b', 'c'], looks);
    assert.equal(new Set(places).size, looks.length);
  }
});

test('pages follow another line, once, and only what is out of sight', () => {
  const sight = (scrolled: number): Sight => ({ top: 0, bottom: 500, pages: [0, 1, 2].map((number) =>
    ({ number, top: number * 1000 - scrolled, bottom: number * 1000 + 900 - scrolled })) });
  const follower = new Follower();
  assert.equal(follower.target('1', [0], sight(0), 0), null);
  assert.equal(follower.target('2', [2], sight(0), 0), 2000);
  assert.equal(follower.target('3', [1, 2], sight(0), 0), 1000);
  assert.equal(follower.target('4', [], sight(0), 0), null);
  // A sliver in sight is not enough.
  assert.equal(follower.target('5', [1], sight(550), 0), 450);
});

test('pages that the reader moves stay where the reader put them', () => {
  const sight: Sight = { top: 0, bottom: 500, pages: [{ number: 0, top: -1000, bottom: -100 }] };
  const follower = new Follower();
  assert.equal(follower.target('1', [0], sight, 0), -1000);
  follower.touched(100);
  assert.equal(follower.target('1', [0], sight, 100 + 10 * kHandsOff), null);
  assert.equal(follower.target('2', [0], sight, 101 + 10 * kHandsOff), -1000);
  follower.touched(200_000);
  assert.equal(follower.target('3', [0], sight, 200_000 + kHandsOff / 2), null);
});
