/** What the shell and the form work out without a page. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { PatternInfo } from '../../src/engine/types.js';
import { inFormOrder, saysTheSame, withWord } from '../../src/form/keys.js';
import { resolved } from '../../src/shell/guide_nodes.js';
import { freePath, stem } from '../../src/shell/names.js';
import { packetName } from '../../src/shell/packets.js';
import { likelyPaper } from '../../src/shell/paper.js';
import { namesIn, search } from '../../src/shell/pattern_search.js';
import { isSequence, stepsIn } from '../../src/shell/steps.js';
import { layoutIn } from '../../src/shell/toolbar.js';

const patterns: PatternInfo[] = [
  { id: 'sh', name: 'sh', family: 'consonant digraphs', remark: 'ship, dish', terms: '', rule: '' },
  { id: 'a_e', name: 'a_e', family: 'silent e', remark: 'cake; not have, village, are', terms: 'magic e, final e', rule: '' },
  { id: 'u_e_oo', name: 'u_e as long oo', family: 'silent e', remark: 'rule', terms: '', rule: '' },
  { id: 'ai', name: 'ai', family: 'vowel teams', remark: 'rain', terms: '', rule: '' },
  { id: 'ay', name: 'ay', family: 'vowel teams', remark: 'play', terms: '', rule: '' },
  { id: 'oa', name: 'oa', family: 'vowel teams', remark: 'boat; not board', terms: '', rule: '' },
  { id: 'a_open', name: 'long a, open syllable', family: 'open syllables', remark: 'baby', terms: '', rule: '' },
  { id: 'th_voiced', name: 'th, voiced (this)', family: 'consonant digraphs', remark: 'this, mother', terms: '', rule: '' },
];
const found = (typed: string, also: string[] = []) => search(patterns, typed, also).map((one) => one.value);

test('the very name comes first, and nothing typed shows all', () => {
  assert.equal(found('oa')[0], 'oa');
  assert.equal(found(' SH ')[0], 'sh');
  assert.equal(found('a_e')[0], 'a_e');
  assert.equal(found('').length, patterns.length);
});

test('a family, a part of a name and an example word lead there', () => {
  assert.deepEqual(found('silent e'), ['a_e', 'u_e_oo']);
  assert.deepEqual(found('th'), ['th_voiced']);
  assert.deepEqual(found('magic e'), ['a_e']);
  assert.equal(found('boat')[0], 'oa');
  assert.deepEqual(found('zzz'), []);
});

test('what Sheaf finds for a sound joins what the letters find', () => {
  assert.deepEqual(found('long a'), ['a_open']);
  assert.deepEqual(found('long a', ['a_e', 'ai', 'ay', 'a_open']), ['a_e', 'ai', 'ay', 'a_open']);
  const out = 'sheaf: `long a` stands for 5 patterns; name one of them:\n' +
    '  a_e              a_e                       cake\n  ai               ai                        rain\n' +
    '  nothing          of ours                   here\n';
  assert.deepEqual(namesIn(out, patterns), ['a_e', 'ai']);
});

test('two to tell apart are one choice, but only whole names', () => {
  assert.equal(found('ai, ay')[0], 'ai, ay');
  assert.equal(found('oa / sh')[0], 'oa, sh');
  assert.equal(found('sh vs oa')[0], 'sh, oa');
  assert.ok(!found('ai, zz').includes('ai, zz'));
  assert.ok(!found('ai, ai').includes('ai, ai'));
});

test('the steps of a sequence that have a pattern', () => {
  const text = 'title: A year\nsteps:\n  - number: 1\n    patterns: short_i   # first\n    sight-words: the a\n' +
    '  - number: 2\n    note: Practice\n  - number: 3\n    name: ships\n    patterns: "sh, ch"\nafter: x\n  - number: 9\n    patterns: oa\n';
  assert.ok(isSequence(text));
  assert.deepEqual(stepsIn(text), [
    { number: '1', label: '1: short_i' }, { number: '3', label: '3: ships, sh, ch' },
  ]);
  assert.deepEqual(stepsIn('pattern: oa\n'), []);
});

test('the paper by the language of the browser', () => {
  assert.equal(likelyPaper('en-US'), 'letter');
  assert.equal(likelyPaper('es-MX'), 'letter');
  assert.equal(likelyPaper('en-GB'), 'a4');
  assert.equal(likelyPaper('de'), 'a4');
  assert.equal(likelyPaper('not a language!'), 'a4');
});

test('the layout that a lesson names', () => {
  assert.equal(layoutIn('pattern: oa\nlayout: large-print  # big\nwords: boat\n'), 'large-print');
  assert.equal(layoutIn('layout: "my own.yaml"\n'), 'my own.yaml');
  assert.equal(layoutIn('pattern: oa\n# layout: board\n'), '');
  assert.equal(layoutIn('sheets:\n  layout: no\n'), '');
});

test('names of files', () => {
  assert.equal(freePath('oa-boat.yaml', ['/oa-boat.yaml', '/oa-boat-2.yaml']), '/oa-boat-3.yaml');
  assert.equal(freePath('oa-boat.yaml', []), '/oa-boat.yaml');
  assert.equal(stem('/week 1/oa-boat.yaml'), 'oa-boat');
  assert.equal(packetName('/oa-boat.yaml', 'learner'), 'oa-boat-packet.pdf');
  assert.equal(packetName('/oa-boat.yaml', 'teacher'), 'oa-boat-teacher.pdf');
});

test('a field that is being typed in keeps what says the same', () => {
  assert.ok(saysTheSame('boat  coat ', 'boat coat', false));
  assert.ok(!saysTheSame('boat coats', 'boat coat', false));
  assert.ok(saysTheSame('One.\n  Two.\n', 'One.\nTwo.', true));
  assert.ok(!saysTheSame('One. Two.', 'One.\nTwo.', true));
});

test('a word is added as the others stand', () => {
  assert.equal(withWord('boat coat ', 'toad'), 'boat coat toad');
  assert.equal(withWord('boat, coat', 'toad'), 'boat, coat, toad');
  assert.equal(withWord('', 'toad'), 'toad');
});

test('the pattern stands first in the form, and the layout elsewhere', () => {
  const keys = ['title', 'pattern', 'words', 'new-key', 'layout'].map((key) => ({ key }));
  assert.deepEqual(inFormOrder(keys).map((one) => one.key), ['pattern', 'words', 'title', 'new-key']);
});

test('links of the guide stay in the guide', () => {
  assert.deepEqual(resolved('a/first.html', '../b.html#c'), { path: 'b.html', part: 'c' });
  assert.deepEqual(resolved('index.html', '#x'), { path: 'index.html', part: 'x' });
  assert.deepEqual(resolved('index.html', 'sheets/'), { path: 'sheets/index.html', part: '' });
  assert.equal(resolved('index.html', 'https://example.org/'), null);
  assert.equal(resolved('index.html', '//example.org/'), null);
  assert.equal(resolved('index.html', 'javascript:alert(1)'), null);
});
