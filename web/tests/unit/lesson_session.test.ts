/** In which order a session asks, and what it makes of the answers. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Folder } from '../../src/contract.js';
import type { Drawn, Engine, Message, Pages, Picture, Sight } from '../../src/engine/types.js';
import { createSession, type LessonSession } from '../../src/lesson/session.js';

interface Asked { text: string; answer(messages?: Message[]): void; fail(): void }

/** Answers when the test says so; hears every text. */
class SlowEngine {
  readonly texts: string[] = [];
  readonly closed: string[] = [];
  readonly asked: Asked[] = [];
  readonly files = new Map<string, string>();

  change(_path: string, text: string): Promise<void> {
    this.texts.push(text);
    return Promise.resolve();
  }
  close(path: string): Promise<void> {
    this.closed.push(path);
    return Promise.resolve();
  }
  messages(): Promise<Message[]> {
    const text = this.texts.at(-1) ?? '';
    return new Promise((resolve, reject) => {
      this.asked.push({
        text, answer: (messages = []) => resolve(messages), fail: () => reject(new Error('gone')),
      });
    });
  }
  stale = false;
  pages(): Promise<Pages> {
    return Promise.resolve({ pages: [], stale: this.stale, why: this.texts.at(-1) ?? '' });
  }
  /** What was asked for with which text. */
  readonly sights: [string, readonly Sight[]][] = [];
  drawChanged(_path: string, sights: readonly Sight[]): Promise<Drawn | null> {
    const look = this.texts.at(-1) ?? '';
    this.sights.push([look, sights]);
    const [first] = sights;
    if (!first) return Promise.reject(new Error('nothing is in sight'));
    return Promise.resolve({ page: first.page, dpi: first.dpi, look,
      picture: { width: look.length, height: 0, colour: false, pixels: new Uint8Array() } });
  }
  /** The pictures that came back, by their numbers of dots. */
  readonly back: number[] = [];
  giveBack(picture: Picture): void { this.back.push(picture.width); }
  readFile(path: string): Promise<Uint8Array | null> {
    const text = this.files.get(path);
    return Promise.resolve(text === undefined ? null : new TextEncoder().encode(text));
  }
}

function begin(): { engine: SlowEngine; session: LessonSession; events: string[]; written: string[][] } {
  const engine = new SlowEngine();
  const written: string[][] = [];
  const folder = { write: (path: string, text: string) => {
    written.push([path, text]);
    return Promise.resolve('written');
  } };
  const session = createSession(engine as unknown as Engine, folder as unknown as Folder);
  const events: string[] = [];
  for (const name of ['text', 'answers', 'messages', 'place', 'opened']) {
    session.addEventListener(name, () => events.push(name));
  }
  return { engine, session, events, written };
}
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
/** Nothing was typed for as long as messages wait. */
const rest = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 400));

function message(text: string, from: number, to: number, fix = ''): Message {
  return {
    severity: 'error', name: 'unknown-word', path: '/a.yaml', range: { from, to }, line: 1,
    column: from + 1, text, help: '', remarks: [],
    fixes: fix === '' ? [] : [{ label: fix, certain: true,
      files: [{ path: '/a.yaml', edits: [{ from, to, insert: fix }] }] }],
  };
}

test('while an answer is under way only the newest text waits', async () => {
  const { engine, session, events } = begin();
  session.open('/a.yaml', 'a');
  session.apply([{ from: 1, to: 1, insert: 'b' }]);
  session.apply([{ from: 2, to: 2, insert: 'c' }]);
  session.apply([{ from: 3, to: 3, insert: 'd' }]);
  assert.equal(session.text, 'abcd');
  assert.deepEqual(engine.texts, ['a']);
  engine.asked[0]?.answer();
  await turn();
  assert.deepEqual(engine.texts, ['a', 'abcd']);
  let settled = false;
  void session.settled().then(() => { settled = true; });
  await turn();
  assert.equal(settled, false);
  engine.asked[1]?.answer();
  await turn();
  assert.equal(settled, true);
  assert.equal(engine.asked.length, 2);
  assert.equal(session.pages.why, 'abcd');
  assert.equal(events.filter((event) => event === 'answers').length, 2);
  await session.settled();
});

test('a place that was answered moves with what was typed meanwhile', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'words: Ship');
  session.apply([{ from: 0, to: 0, insert: '# new\n' }]);
  engine.asked[0]?.answer([message('a capital', 7, 11, 'ship')]);
  await rest();
  const [moved] = session.messages;
  assert.deepEqual(moved?.range, { from: 13, to: 17 });
  assert.equal(moved.line, 2);
  assert.equal(moved.column, 8);
  session.apply(moved.fixes[0]?.files[0]?.edits ?? []);
  assert.equal(session.text, '# new\nwords: ship');
});

test('messages wait until typing rests; pages do not', async () => {
  const { engine, session, events } = begin();
  session.open('/a.yaml', 'words: shi');
  engine.asked[0]?.answer([message('half a word', 7, 10)]);
  await turn();
  assert.equal(session.messages[0]?.text, 'half a word', 'a text that was opened is not being typed');
  session.apply([{ from: 10, to: 10, insert: 'p' }]);
  engine.asked[1]?.answer([message('a word', 7, 11)]);
  await turn();
  assert.equal(session.pages.why, 'words: ship');
  assert.equal(session.messages[0]?.text, 'half a word');
  // Those that wait move with the text, as those do that are shown.
  session.apply([{ from: 0, to: 0, insert: '# new\n' }]);
  assert.deepEqual(session.messages[0]?.range, { from: 13, to: 16 });
  await rest();
  assert.equal(session.messages[0]?.text, 'a word');
  assert.deepEqual(session.messages[0]?.range, { from: 13, to: 17 });
  engine.asked[2]?.answer([message('the last', 13, 17)]);
  await session.settled();
  assert.equal(session.messages[0]?.text, 'the last');
  assert.deepEqual(events.filter((event) => /answers|messages/.test(event)),
    ['answers', 'messages', 'answers', 'messages', 'answers', 'messages']);
});

test('who waits for all answers has the messages at once', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'words: shi');
  engine.asked[0]?.answer();
  await turn();
  session.apply([{ from: 10, to: 10, insert: 'p' }]);
  let said: string | undefined;
  void session.settled().then(() => { said = session.messages[0]?.text; });
  engine.asked[1]?.answer([message('a word', 7, 11)]);
  await turn();
  assert.equal(said, 'a word');
});

test('a mend of words that were changed since is gone', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'words: Ship');
  engine.asked[0]?.answer([message('a capital', 7, 11, 'ship')]);
  await turn();
  assert.equal(session.messages[0]?.fixes.length, 1);
  session.apply([{ from: 9, to: 10, insert: 'o' }]);
  assert.equal(session.messages[0]?.fixes.length, 0);
  assert.deepEqual(session.messages[0]?.range, { from: 7, to: 11 });
});

test('an answer about a lesson that is open no more is dropped', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'old');
  session.open('/b.yaml', 'new');
  assert.deepEqual(engine.closed, ['/a.yaml']);
  engine.asked[0]?.answer([message('of the old one', 0, 3)]);
  await turn();
  assert.equal(session.messages.length, 0);
  engine.asked[1]?.answer();
  await session.settled();
  assert.equal(session.pages.why, 'new');
});

test('the same file opened again does not take answers about its earlier text', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'a long text');
  session.open('/a.yaml', 'b');
  assert.deepEqual(engine.closed, []);
  engine.asked[0]?.answer([message('beyond the end', 7, 11)]);
  await turn();
  assert.equal(session.messages.length, 0);
});

test('an engine that fails leaves the last good answers, and the next text asks again', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'a');
  engine.asked[0]?.answer([message('kept', 0, 1)]);
  await session.settled();
  session.apply([{ from: 1, to: 1, insert: 'b' }]);
  engine.asked[1]?.fail();
  await session.settled();
  assert.equal(session.messages[0]?.text, 'kept');
  assert.equal(session.pages.stale, true);
  session.apply([{ from: 2, to: 2, insert: 'c' }]);
  engine.asked[2]?.answer();
  await session.settled();
  assert.equal(session.pages.stale, false);
  assert.equal(session.messages.length, 0);
});

test('what is asked in between is asked about the text as it is now', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'a');
  session.apply([{ from: 1, to: 1, insert: 'b' }]);
  session.push();
  session.push();
  assert.deepEqual(engine.texts, ['a', 'ab']);
  let drawable: boolean | null = null;
  session.addEventListener('answers', () => { drawable ??= session.drawable; });
  engine.asked[0]?.answer();
  await turn();
  // These answers are about a text that the engine has no more.
  assert.equal(drawable, false);
  engine.asked[1]?.answer();
  await session.settled();
  assert.equal(session.drawable, true);
  session.apply([{ from: 2, to: 2, insert: 'c' }]);
  session.push();
  assert.equal(session.drawable, false);
});

test('with a text comes the page in sight that it changes, and only once', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'a');
  engine.asked[0]?.answer();
  await session.settled();
  // Nothing was in sight.
  assert.deepEqual(engine.sights, []);
  assert.equal(session.takeFirst(), null);

  const sights = [{ page: 3, dpi: 70, look: 'a' }, { page: 4, dpi: 70, look: 'x' }];
  session.sights = () => sights;
  session.apply([{ from: 1, to: 1, insert: 'b' }]);
  engine.asked[1]?.answer();
  await session.settled();
  assert.deepEqual(engine.sights, [['ab', sights]]);
  const first = session.takeFirst();
  assert.equal(first?.version, session.version);
  assert.equal((await first?.drawn)?.page, 3);
  assert.equal(session.takeFirst(), null);
});

test('a page that a later text made old goes back, and one that is shown does not', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'a');
  engine.asked[0]?.answer();
  await session.settled();
  session.sights = () => [{ page: 0, dpi: 70, look: '' }];
  for (const [at, letter] of ['b', 'c'].entries()) {
    session.apply([{ from: at + 1, to: at + 1, insert: letter }]);
    engine.asked[at + 1]?.answer();
    await session.settled();
  }
  await turn();
  assert.deepEqual(engine.back, [2]);
  assert.equal((await session.takeFirst()?.drawn)?.look, 'abc');

  // So does one of a lesson that was left meanwhile.
  session.apply([{ from: 3, to: 3, insert: 'd' }]);
  session.open('/b.yaml', 'b');
  engine.asked[3]?.answer();
  await turn();
  engine.asked[4]?.answer();
  await session.settled();
  await turn();
  assert.deepEqual(engine.back, [2, 4]);
});

test('a page that cannot be drawn takes no answer away', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'a');
  engine.asked[0]?.answer();
  await session.settled();
  session.sights = () => [{ page: 0, dpi: 70, look: '' }];
  engine.drawChanged = () => Promise.reject(new Error('gone'));
  session.apply([{ from: 1, to: 1, insert: 'b' }]);
  engine.asked[1]?.answer();
  await session.settled();
  assert.equal(session.pages.stale, false);
  assert.equal(session.pages.why, 'ab');
  assert.equal(await session.takeFirst()?.drawn, null);
});

test('ends of lines count one, and a byte order mark nothing', () => {
  const { session } = begin();
  session.open('/a.yaml', '\uFEFFa: 1\r\nb: 2\rc: 3\n');
  assert.equal(session.text, 'a: 1\nb: 2\nc: 3\n');
});

test('other files are changed through the folder, before the open one', async () => {
  const { engine, session, written } = begin();
  engine.files.set('/class.yaml', 'codes: AB CD\n');
  session.open('/a.yaml', 'words: Ship');
  await session.applyFiles([
    { path: '/a.yaml', edits: [{ from: 7, to: 11, insert: 'ship' }] },
    { path: '/class.yaml', edits: [{ from: 7, to: 9, insert: 'EF' }, { from: 10, to: 12, insert: '' }] },
  ]);
  assert.deepEqual(written, [['/class.yaml', 'codes: EF \n']]);
  assert.equal(session.text, 'words: ship');
  await assert.rejects(session.applyFiles([
    { path: '/a.yaml', edits: [{ from: 0, to: 5, insert: '' }] },
    { path: '/none.yaml', edits: [{ from: 0, to: 0, insert: 'x' }] },
  ]), /none\.yaml/);
  assert.equal(session.text, 'words: ship');
});

test('the cursor moves with the text, and a place beyond it is brought back', () => {
  const { session, events } = begin();
  session.open('/a.yaml', 'abc');
  session.goTo({ from: 2, to: 99 });
  assert.equal(session.cursor, 2);
  session.apply([{ from: 0, to: 0, insert: 'xx' }]);
  assert.equal(session.cursor, 4);
  session.goTo({ from: 99, to: 99 });
  assert.equal(session.cursor, 5);
  assert.ok(events.includes('place'));
});

test('places of the last good pages are found in a text that has errors', async () => {
  const { engine, session } = begin();
  session.open('/a.yaml', 'one\ntwo\n');
  engine.asked[0]?.answer();
  await session.settled();
  assert.deepEqual(session.fromPages({ from: 4, to: 7 }), { from: 4, to: 7 });
  engine.stale = true;
  session.apply([{ from: 0, to: 0, insert: 'bad' }]);
  engine.asked[1]?.answer();
  await turn();
  session.apply([{ from: 3, to: 3, insert: '!\n' }]);
  engine.asked[2]?.answer();
  await session.settled();
  assert.equal(session.text, 'bad!\none\ntwo\n');
  assert.deepEqual(session.fromPages({ from: 4, to: 7 }), { from: 9, to: 12 });
  assert.deepEqual(session.toPages({ from: 9, to: 12 }), { from: 4, to: 7 });
  engine.stale = false;
  session.apply([{ from: 0, to: 5, insert: '' }]);
  session.apply([{ from: 0, to: 0, insert: '# ' }]);
  engine.asked[3]?.answer();
  await turn();
  engine.asked[4]?.answer();
  await session.settled();
  assert.deepEqual(session.fromPages({ from: 6, to: 9 }), { from: 6, to: 9 });
});
