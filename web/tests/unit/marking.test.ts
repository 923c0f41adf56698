import './older_node.js';
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { choicesOf, codesFor } from '../../src/folder/class_view.js';
import { rollOf } from '../../src/folder/class_codes.js';
import { forReading } from '../../src/folder/plan_view.js';
import { checkMessages, countsOf, spokenMessages } from '../../src/folder/said.js';
import { adviceOf, attemptsOf, causesOf, scoreOf, withCauses } from '../../src/marking/attempts.js';
import { dictationOf } from '../../src/marking/dictation.js';
import { PairMarker } from '../../src/marking/pairs.js';
import { progressOf, shareWords } from '../../src/marking/progress_data.js';
import { markRecord, questionsOf } from '../../src/marking/record_marks.js';
import { asValue, readForm, recordPlaces, recordText, replaced } from '../../src/marking/record_text.js';
import { fakeEngine, text } from './fake_engine.js';

const attempt = (target: string, written: string, learner = '') => ({
  learner, target, written, graphemes: [{ grapheme: target, result: target === written ? 'correct' : 'wrong', cause: null }],
  extra: 0, letter_sequences: 1, letter_sequences_possible: 5, right: target === written });
const json = (...attempts: unknown[]) => JSON.stringify({ attempts });

const kPairs = '  word  written  graphemes  sequences  what\n' +
  '  rain  rane     r ai n     2/5        ai written a_e, plausible (sound kept, spelled in a way that is used there)\n' +
  '  I     I        i          2/2        right\n' +
  '  fish  .        f i sh     0/5        left blank\n' +
  'Scores describe how these words went and nothing else. They do not screen for or diagnose anything: more.\n';

const kRecord = '2026-10-16 week-06-ai-ay, dictation\n\n' +
  '  learner  words        letter sequences  ai           causes\n' +
  '  B7       15/16 (94%)  78 of 81          4/5 (80%)    a near sound 1\n\n' +
  '  learner  word   written  what\n' +
  '  B7       snail  snale    ai written a_e, plausible (sound kept)\n' +
  '  K2       train  chran    t written ch, wrong (a near sound); ai written a, wrong (says that)\n\n' +
  '  ai: another set. 15/25 (60%) right; in 7 of 10 misses the spelling was at fault\n' +
  '    not there yet: C3 (another set)\n' +
  '  ay: go on. 17/20 (85%) right\n\nScores describe how: go on.\n';

test('causes in words are read from the tables that people are given', () => {
  assert.deepEqual(causesOf(kPairs).map(({ target, what }) => [target, what]), [
    ['rain', 'ai written a_e, plausible (sound kept, spelled in a way that is used there)'],
    ['I', 'right'], ['fish', 'left blank']]);
  assert.deepEqual(causesOf(kRecord).map(({ learner, target }) => learner + target), ['B7snail', 'K2train']);
  assert.deepEqual(causesOf('nothing like a table'), []);
});

test('each cause comes to its attempt, and to none where the two do not fit', () => {
  const three = attemptsOf(json(attempt('rain', 'rane'), attempt('I', 'I'), attempt('fish', '.'))) ?? [];
  assert.deepEqual(withCauses(three, kPairs, true).map(({ what }) => what.slice(0, 10)), ['ai written', '', 'left blank']);
  const other = attemptsOf(json(attempt('rain', 'rane'), attempt('I', 'I'))) ?? [];
  assert.deepEqual(withCauses(other, kPairs, true).map(({ what }) => what), ['', '']);
  const wrong = attemptsOf(json(attempt('snail', 'snale', 'B7'), attempt('rain', 'rain', 'B7'), attempt('train', 'chran', 'K2'))) ?? [];
  assert.deepEqual(withCauses(wrong, kRecord, false).map(({ what }) => what.slice(0, 3)), ['ai ', '', 't w']);
  assert.deepEqual(scoreOf(wrong), { right: 1, of: 3, sequences: 3, possible: 15 });
});

test('what comes next for the group', () => {
  assert.deepEqual(adviceOf(kRecord).map(line => line.slice(0, 14)), ['ai: another se', 'ay: go on. 17/']);
});

test('an answer of another form is no answer', () => {
  for (const bad of ['', 'x', '[]', '{}', '{"attempts": 3}', 'null']) assert.equal(attemptsOf(bad), null);
  assert.deepEqual(attemptsOf('{"attempts": [7, {"graphemes": [{"grapheme": "r", "result": "odd"}]}]}')?.map(a => a.graphemes.length), [0, 1]);
});

test('only new pairs are marked, words together and a sentence alone', async () => {
  const engine = fakeEngine((args, input) => {
    const lines = input.trimEnd().split('\n').map(line => line.split('\t'));
    const attempts = lines.flatMap(([target = '', written = '']) => {
      const wrote = written.split(' ');
      return target.split(' ').map((word, i) => attempt(word, wrote[i] ?? '.'));
    });
    return { code: 0, out: args.includes('--json') ? json(...attempts) : '', err: '', written: [] };
  });
  const marker = new PairMarker(engine);
  const pairs = [{ target: 'rain', written: 'rane' }, { target: 'I may go', written: 'I mai go' }, { target: 'day', written: 'day' }];
  const marked = await marker.mark(pairs, '');
  assert.deepEqual(marked.map(one => 'attempts' in one ? one.attempts.map(({ target }) => target) : one),
    [['rain'], ['I', 'may', 'go'], ['day']]);
  assert.equal(engine.calls.length, 4);
  await marker.mark([...pairs, { target: 'play', written: 'paly' }], '');
  assert.equal(engine.calls.length, 6);
  await marker.mark(pairs.slice(0, 1), 'scottish');
  assert.deepEqual(engine.calls.at(-1), ['mark', '--pairs', '-', '--accent', 'scottish']);
});

test('a word that is not understood does not keep the others from being marked', async () => {
  const engine = fakeEngine((args, input) => input.includes('??')
    ? { code: 1, out: '', err: 'error: `??` is no word [bad]\n', written: [] }
    : { code: 0, out: args.includes('--json') ? json(attempt('rain', 'rane')) : '', err: '', written: [] });
  const [good, bad] = await new PairMarker(engine).mark(
    [{ target: 'rain', written: 'rane' }, { target: '??', written: 'x' }], '');
  assert.ok(good && 'attempts' in good);
  assert.deepEqual(bad, { fault: '`??` is no word' });
});

const kForm = `# What was written. Type errors only.
# Dictated:
#   rain day
#   It may rain.
# yaml-language-server: $schema=somewhere/record.json
sheaf: 1
date: 2026-03-12
lesson: ai-ay-rain.yaml
kind: dictation
class: class.yaml
marked: not yet
# absent: CODE, CODE
wrong:
  E5:
  K2:
  "É3":
`;

test('a record is the form with what was typed, for everybody who was there', () => {
  const form = readForm(kForm);
  assert.ok(form);
  assert.deepEqual(form.codes, ['E5', 'K2', 'É3']);
  const made = recordText(form, [
    { code: 'E5', absent: false, wrong: ' rane,  wate ' }, { code: 'K2', absent: true, wrong: 'lost' },
    { code: 'D1', absent: false, wrong: '' }, { code: 'C3', absent: false, wrong: 'x: #y' },
    { code: 'É3', absent: false, wrong: 'ran' }]);
  assert.equal(made.text, `# What was written: errors only. Everything else counts as right for those who
# are marked.
# Dictated:
#   rain day
#   It may rain.
sheaf: 1
date: 2026-03-12
lesson: ai-ay-rain.yaml
kind: dictation
class: class.yaml
marked: all
absent: K2
wrong:
  E5: rane, wate
  D1:
  C3: "x: #y"
  "É3": ran
`);
  for (const [code, line] of made.lines) {
    assert.ok(made.text.split('\n')[line - 1]?.replaceAll('"', '').startsWith(`  ${code}:`), code);
  }
  assert.equal(made.lines.has('K2'), false);
  assert.equal(readForm('date: 2026-03-12\n'), null);
});

test('what means something in the file stands in quotes', () => {
  for (const plain of ['rane', 'rane, wate', 'rain=rane, day=.', "don't", 'The tran will wate a day.', 'Ärger']) {
    assert.equal(asValue(plain), plain);
  }
  for (const odd of ['#1', 'a: b', '- x', '[x', '{x', '"x', '.', '~', '*x', '&x', '!x', '%', 'a #b', '1', '=x', '| x']) {
    assert.equal(asValue(odd), JSON.stringify(odd), odd);
  }
});

test('a record lies in the folder records beside the class, its draft beside that', () => {
  assert.deepEqual(recordPlaces('/class.yaml', '/.marking/2026-03-12-oa.yaml'),
    { path: '/records/2026-03-12-oa.yaml', draft: '/.marking/2026-03-12-oa.yaml' });
  assert.equal(recordPlaces('/a/class.yaml', 'x/d.yaml').path, '/a/records/d.yaml');
});

test('a mend replaces one entry of what was typed', () => {
  assert.equal(replaced('rane, chrain', 'chrain', 'train=chrain'), 'rane, train=chrain');
  assert.equal(replaced('chrain,ran', 'ran', 'rain=ran'), 'chrain,rain=ran');
  assert.equal(replaced('rane', 'other', 'x'), 'rane');
  assert.equal(replaced('a$&', 'a$&', '$&b'), '$&b');
});

const question = (line: number, from: number, to: number) => JSON.stringify({ messages: [
  { severity: 'note', text: 'taken', place: { begin: { line } } },
  { severity: 'error', text: 'may be two', help: 'say which', place: { begin: { line, utf16: from }, end: { line, utf16: to } },
    fixes: [{ replacement: 'train=chrain', place: { begin: { line, utf16: from }, end: { line, utf16: to } } }] }] });

test('a fault in a learner’s line becomes a question there; any other is the record’s', () => {
  const body = 'wrong:\n  E5: rane\n  K2: chrain\n';
  const { questions, faults } = questionsOf(question(3, 6, 12), body, new Map([['E5', 2], ['K2', 3]]));
  assert.deepEqual([...questions], [['K2', [{ text: 'may be two', help: 'say which', mends: [{ entry: 'chrain', by: 'train=chrain' }] }]]]);
  assert.deepEqual(faults, []);
  assert.deepEqual(questionsOf(question(1, 0, 1), body, new Map([['E5', 2]])).faults, ['may be two']);
});

test('while one learner’s line is asked about, the others are marked; no draft stays', async () => {
  const form = readForm(kForm);
  assert.ok(form);
  const draft = '/.marking/x.yaml';
  const seen: string[] = [];
  const engine = fakeEngine((args, _input, { files }) => {
    const record = text(files.get(draft));
    seen.push(record);
    const line = record.split('\n').findIndex(one => one.includes('chrain')) + 1;
    if (args[0] === 'check') return { code: 1, out: question(line, 6, 12), err: '', written: [] };
    return { code: 0, out: args.includes('--json') ? json(attempt('rain', 'rane', 'E5'), attempt('day', 'day', 'E5')) : '', err: '', written: [] };
  });
  const marks = await markRecord(engine, form, [
    { code: 'E5', absent: false, wrong: 'rane' }, { code: 'K2', absent: false, wrong: 'chrain' },
    { code: 'D1', absent: true, wrong: '' }], draft);
  assert.deepEqual([...marks.questions.keys()], ['K2']);
  assert.deepEqual([...marks.attempts].map(([code, all]) => [code, all.length]), [['E5', 2]]);
  assert.ok(seen[0]?.includes('chrain'));
  assert.ok(!seen[1]?.includes('K2'));
  assert.equal(engine.files.size, 0);
});

test('what a lesson dictates, else its words', () => {
  const words = (...all: string[]) => all.map(word => ({ word }));
  assert.deepEqual(dictationOf(JSON.stringify({ lesson: { words: words('a', 'b'), dictate_words: words('rain', 'day', 'rain'),
    dictate_sentences: [{ text: 'It may rain.' }] } })), { words: ['rain', 'day'], sentences: ['It may rain.'] });
  assert.deepEqual(dictationOf(JSON.stringify({ lesson: { words: words('a', 'b') } })), { words: ['a', 'b'], sentences: [] });
  assert.equal(dictationOf('{"lesson": null}'), null);
  assert.equal(dictationOf(''), null);
});

test('messages keep the line of the file to themselves', () => {
  const err = 'cl.yaml:2:1: error: the learner in line 3 has no short code [wrong-value]\n' +
    '   2 | Johnny Miller:\n     | ^~~~\n  help: use a code\n' +
    'sh-ship.yaml: note: the sheet `warm-up` is left out: no patterns [sheet-left-out]\n' +
    'sheaf week: nobody in class.yaml has a lesson\n';
  const said = spokenMessages(err);
  assert.deepEqual(said.map(({ severity, file, line, text: t, help }) => [severity, file, line, t, help]), [
    ['error', 'cl.yaml', 2, 'the learner in line 3 has no short code', 'use a code'],
    ['note', 'sh-ship.yaml', 0, 'the sheet `warm-up` is left out: no patterns', ''],
    ['error', '', 0, 'nobody in class.yaml has a lesson', '']]);
  assert.ok(!JSON.stringify(said).includes('Johnny'));
  assert.deepEqual(countsOf(said), { errors: 2, warnings: 0 });
  assert.deepEqual(checkMessages('{"messages":[{"severity":"warning","name":"n","text":"t","help":null,"place":{"file":"/a.yaml","begin":{"line":4}}}]}'),
    [{ severity: 'warning', name: 'n', file: 'a.yaml', line: 4, text: 't', help: '' }]);
  assert.equal(checkMessages('sheaf'), null);
});

test('a plan is read without what is for a terminal', () => {
  assert.equal(forReading('  learner  words\n  B7       x\n\nclass.yaml: review words\n  to print the packets:\n' +
    '    /usr/bin/sheaf build --class c.yaml\nNothing is written. --yes writes it into class.yaml\nThe end.\n'),
  '  learner  words\n  B7       x\n\nclass.yaml: review words\nThe end.');
});

test('progress, and no percentage where it would say too much', () => {
  const found = progressOf('{"as_of": "2026-11-13", "learners": [{"learner": "B7", "patterns": [{"pattern": "sh", "state": "secure", ' +
    '"all": {"right": 26, "of": 26}, "why": "w"}], "days": [{"date": "2026-09-11", "kind": "dictation", "words": {"right": 1, "of": 2}, ' +
    '"letter_sequences": 5, "letter_sequences_possible": 6}]}]}');
  assert.equal(found?.learners[0]?.patterns[0]?.state, 'secure');
  assert.equal(found?.learners[0]?.days[0]?.sequences, 5);
  assert.equal(progressOf('{}'), null);
  assert.equal(shareWords({ right: 4, of: 5 }), '4 of 5 (80%)');
  assert.equal(shareWords({ right: 3, of: 4 }), '3 of 4');
  assert.equal(shareWords({ right: 0, of: 0 }), 'none');
});

test('packets for everybody, a group or one learner', () => {
  const roll = rollOf('learners:\n  B7: {group: Red}\n  C3:\n  D1: {group: Red}\n');
  assert.deepEqual(choicesOf(roll).map(({ label }) => label), ['Everybody (3 learners)', 'Group Red (2 learners)', 'B7', 'C3', 'D1']);
  assert.deepEqual(codesFor('all', roll), []);
  assert.deepEqual(codesFor('group:Red', roll), ['B7', 'D1']);
  assert.deepEqual(codesFor('learner:C3', roll), ['C3']);
});
