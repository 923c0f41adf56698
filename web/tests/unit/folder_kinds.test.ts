import './older_node.js';
import assert from 'node:assert/strict';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { Checks, worthChecking, type Checkable } from '../../src/folder/checks.js';
import { isCode, rollOf } from '../../src/folder/class_codes.js';
import { kindOf, valueOf } from '../../src/folder/kinds.js';
import { classText } from '../../src/folder/new_class.js';
import { byName, enginePath, extensionOf, folderOf, isReadable } from '../../src/folder/paths.js';
import { fakeEngine } from './fake_engine.js';

/** The project's own lessons, from wherever the tests are started in it. */
function lessons(): string {
  for (const up of ['.', '..', '../..']) {
    if (statSync(join(up, 'lessons/class.yaml'), { throwIfNoEntry: false })) return join(up, 'lessons');
  }
  throw new Error('start this in the project or in its folder web');
}

test('every file of the project’s lessons is of its kind', () => {
  const counts: Record<string, number> = {};
  const walk = (folder: string) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) { walk(path); continue; }
      const kind = kindOf(path, readFileSync(path, 'utf8'));
      counts[kind] = (counts[kind] ?? 0) + 1;
      const expected = /sequence\.yaml$/.test(path) ? 'sequence' : /class\.yaml$/.test(path) ? 'class'
        : /records\//.test(path) ? 'record' : /\.txt$/.test(path) ? 'other' : 'lesson';
      assert.equal(kind, expected, path);
    }
  };
  walk(lessons());
  for (const kind of ['lesson', 'sequence', 'class', 'record']) assert.ok((counts[kind] ?? 0) > 1, kind);
});

test('the first key that only one kind has decides', () => {
  assert.equal(kindOf('/a.yaml', 'title: x\npattern: oa\n'), 'lesson');
  assert.equal(kindOf('/a.yml', '# steps: x\nlearners: B7\n'), 'class');
  assert.equal(kindOf('/a.yaml', 'lesson: x.yaml\ndate: 2026-03-12\nwrong:\n'), 'record');
  assert.equal(kindOf('/a.yaml', 'note: |\n  words: within\nsheets: [trace]\n'), 'layout');
  assert.equal(kindOf('/layouts/mine.yaml', 'paper: a4\n'), 'layout');
  assert.equal(kindOf('/mine.yaml', 'paper: a4\n'), 'other');
  assert.equal(kindOf('/sentences.txt', 'The goat has a coat.\n'), 'sentences');
  assert.equal(kindOf('/oa.txt', '\ufeffpattern: oa\r\n'), 'lesson');
  assert.equal(kindOf('/goat.PNG', ''), 'picture');
});

test('the value of a key that stands on one line', () => {
  assert.equal(valueOf('title: "Room 4" # mine\r\n', 'title'), 'Room 4');
  assert.equal(valueOf('pattern: ai, ay   # two\n', 'pattern'), 'ai, ay');
  assert.equal(valueOf('passage: |\n  x\n', 'passage'), '');
  assert.equal(valueOf('a: 1\n', 'title'), '');
});

test('learners and groups, however they are written', () => {
  const five = rollOf(readFileSync(join(lessons(), 'class.yaml'), 'utf8'));
  assert.deepEqual(five.learners.map(({ code, group }) => code + group), ['B7', 'C3', 'D1', 'E5vowels', 'K2vowels']);
  assert.deepEqual(five.groups, ['vowels']);
  assert.equal(five.title, 'Harbour group');
  const codes = (text: string) => rollOf(text).learners.map(({ code }) => code);
  assert.deepEqual(codes('learners: B7, C3 # two\n'), ['B7', 'C3']);
  assert.deepEqual(codes('learners: [B7, "C3"]\nlesson: x.yaml\n'), ['B7', 'C3']);
  assert.deepEqual(codes('learners:\n  - B7\n  - C3\n'), ['B7', 'C3']);
  assert.deepEqual(codes('learners:\n- B7\n- C3\ntitle: x\n'), ['B7', 'C3']);
  assert.deepEqual(rollOf('learners: {B7: {group: Red, amount: 6}, AB: }\n').learners,
    [{ code: 'B7', group: 'Red' }, { code: 'AB', group: '' }]);
  assert.deepEqual(rollOf('learners:\n  B7: {group: "Red one"}\n  C3:\n    amount: 6\n    group: Blue\n').learners,
    [{ code: 'B7', group: 'Red one' }, { code: 'C3', group: 'Blue' }]);
  assert.deepEqual(codes('title: x\n'), []);
});

test('what is no code is never taken from a class file', () => {
  const text = 'learners:\n  Johnny Miller:\n  Ann:\n  B7:\n  Miller: {group: x}\n  "Jo":\n  A. Baker: \n';
  assert.deepEqual(rollOf(text).learners.map(({ code }) => code), ['B7']);
  assert.deepEqual(rollOf('learners: Johnny, Ann, AB\n').learners.map(({ code }) => code), ['AB']);
});

test('codes are what Sheaf takes for codes', () => {
  for (const code of ['B7', 'AB', 'ABC', 'b7', '12', 'É3', '7-B', 'AB-12']) assert.ok(isCode(code), code);
  for (const name of ['Ann', 'ann', 'ANNE', 'Abc-d1', '', 'B 7', '-7', 'B--7', '1234567890123', 'x.yaml']) {
    assert.ok(!isCode(name), name);
  }
});

test('a first class file', () => {
  assert.equal(classText('B7, C3 B7\tAB', 'oa boat.yaml'), 'lesson: oa boat.yaml\nlearners:\n  B7:\n  C3:\n  AB:\n');
  assert.equal(classText('B7', 'a: b.yaml'), 'lesson: "a: b.yaml"\nlearners:\n  B7:\n');
  for (const bad of ['', ' , ', 'B7 Ann', 'Johnny']) assert.equal(classText(bad, ''), null);
});

test('only what a change can matter to is checked again', () => {
  const files: Checkable[] = [
    { path: '/a.yaml', kind: 'lesson', text: 'a' }, { path: '/b.yaml', kind: 'lesson', text: 'b' },
    { path: '/class.yaml', kind: 'class', text: 'c' }, { path: '/records/r.yaml', kind: 'record', text: 'r' },
    { path: '/sequence.yaml', kind: 'sequence', text: 's' }];
  const before = new Map(files.map(({ path, text }) => [path, text]));
  const after = (path: string) => worthChecking(files.map(file => file.path === path ? { ...file, text: 'new' } : file), before)
    .map(file => file.path);
  assert.deepEqual(worthChecking(files, before), []);
  assert.equal(worthChecking(files, new Map()).length, 5);
  assert.deepEqual(after('/a.yaml'), ['/a.yaml', '/class.yaml', '/records/r.yaml']);
  assert.deepEqual(after('/records/r.yaml'), ['/records/r.yaml']);
  assert.deepEqual(after('/class.yaml'), ['/class.yaml', '/records/r.yaml']);
  assert.equal(after('/sequence.yaml').length, 5);
  assert.equal(worthChecking(files.slice(1), before).length, 4);
});

test('a check that was stopped goes on where it was', async () => {
  const engine = fakeEngine(() => ({ code: 0, out: '{"messages":[]}', err: '', written: [] }));
  const checks = new Checks(engine);
  const files: Checkable[] = ['class', 'lesson', 'lesson', 'picture'].map((kind, i) => (
    { path: `/${i}.yaml`, kind: kind as Checkable['kind'], text: `${i}` }));
  checks.take(files);
  checks.addEventListener('checked', () => { checks.stop(); }, { once: true });
  await checks.run();
  assert.deepEqual(engine.calls.map(args => args[1]), ['1.yaml']);
  await checks.run();
  assert.deepEqual(engine.calls.map(args => args[1]), ['1.yaml', '2.yaml', '0.yaml']);
  checks.take(files);
  await checks.run();
  assert.equal(engine.calls.length, 3);
  assert.deepEqual(checks.of('/0.yaml'), []);
  assert.equal(checks.of('/3.yaml'), undefined);
});

test('paths', () => {
  assert.equal(enginePath('lessons//a.yaml'), '/lessons/a.yaml');
  assert.equal(enginePath('./a.yaml'), '/a.yaml');
  for (const bad of ['', '/', '../a.yaml', 'a/../../b.yaml', 'a\nb.yaml']) assert.equal(enginePath(bad), null);
  assert.equal(extensionOf('/a.b/C.YAML'), 'yaml');
  assert.equal(extensionOf('/a.b/c'), '');
  assert.equal(extensionOf('/.yaml'), '');
  assert.equal(folderOf('/a/b.yaml'), '/a');
  assert.equal(folderOf('/b.yaml'), '');
  assert.ok(isReadable('x.JPG'));
  assert.ok(!isReadable('x.docx'));
  assert.deepEqual(['week-10', 'Week-2', 'week-1'].sort(byName), ['week-1', 'Week-2', 'week-10']);
});
