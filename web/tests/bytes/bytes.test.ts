// Every PDF that the page makes is the one that the native program makes, to the
// byte: in Node and in Chromium, as a command and as the page's buttons do it.
// What is said, and the exit codes, are the same as well.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { buildSync } from 'esbuild';
import { built, newPage, openChromium } from '../support/browser.js';
import { servePages } from '../support/server.js';
import { allWork, Native, teachersFiles, type Made, type Work } from './native.js';
import { InNode } from './in_node.js';
import type { InPage } from './in_page.js';

declare global { var sheafInPage: InPage; }

const works = allWork();
const lessons = works.filter((work) => work.lesson !== undefined);
const made = new Map<Work, Made>();
let native: Native;
before(async () => {
  native = new Native();
  for (const work of works) made.set(work, await native.run(work.args));
});
after(() => { native.end(); });

const wanted = (work: Work): Made => {
  const found = made.get(work);
  assert.ok(found);
  return found;
};
const textOf = (lesson: string): string =>
  readFileSync(join(native.folder, lesson), 'utf8');
/** "packet.pdf" for "/out/x/packet.pdf". */
const byName = ({ pdfs }: Made): Record<string, string> => Object.fromEntries(
  Object.entries(pdfs).map(([path, hash]) => [path.slice(path.lastIndexOf('/') + 1), hash]));

class Count {
  same = 0;
  readonly other: string[] = [];
  add(where: string, made: Record<string, string>, wanted: Record<string, string>): void {
    for (const name of new Set([...Object.keys(made), ...Object.keys(wanted)])) {
      if (made[name] !== undefined && made[name] === wanted[name]) this.same += 1;
      else this.other.push(`${where}: ${name}`);
    }
  }
  check(least: number): void {
    assert.deepEqual(this.other, []);
    assert.ok(this.same >= least, `${this.same} PDFs are too few`);
  }
}

test('the native program makes what the others are held against', (t) => {
  const pdfs = [...made.values()].flatMap((one) => Object.keys(one.pdfs));
  for (const work of works) {
    assert.equal(wanted(work).code, 0, `${work.args.join(' ')}\n${wanted(work).err}`);
    assert.ok(Object.keys(wanted(work).pdfs).length > 0, work.args.join(' '));
  }
  t.diagnostic(`${works.length} runs, ${lessons.length} lessons, ${pdfs.length} PDFs`);
});

test('in Node, as commands', async (t) => {
  const module = await InNode.open();
  const count = new Count();
  for (const work of works) {
    const { pdfs, ...said } = await module.run(work.args);
    const { pdfs: theirs, ...theirSaid } = wanted(work);
    count.add(work.args.join(' '), pdfs, theirs);
    assert.deepEqual(said, theirSaid, work.args.join(' '));
  }
  t.diagnostic(`${count.same} PDFs the same, ${count.other.length} not`);
  count.check(works.length);
});

test('in Node, as the page makes packets', async (t) => {
  const module = await InNode.open();
  const count = new Count();
  const texts = lessons.map((work): [string, string] =>
    [`/${work.lesson}`, textOf(work.lesson ?? '')]);
  // The same instance for ten of them: nothing of one stays in the next.
  for (let i = 0; i < texts.length; i += 10) {
    const packets = await module.packets(texts.slice(i, i + 10));
    packets.forEach((packet, k) => {
      const work = lessons[i + k];
      if (work) count.add(work.lesson ?? '', packet, byName(wanted(work)));
    });
  }
  t.diagnostic(`${count.same} PDFs the same, ${count.other.length} not`);
  count.check(lessons.length);
});

test('in Chromium', async (t) => {
  const chromium = await openChromium();
  t.after(() => chromium.close());
  const server = await servePages(built);
  t.after(() => server.stop());
  const { page, faults } = await newPage(t, chromium.browser);
  await page.goto(server.address);
  const [code] = buildSync({ entryPoints: ['tests/bytes/in_page.ts'], bundle: true,
    write: false, format: 'iife', target: 'chrome111' }).outputFiles;
  // The page's rules let in no script; the tools of a developer are beside them.
  await page.evaluate(code?.text ?? '');
  await page.evaluate((files) => globalThis.sheafInPage.begin(files),
    teachersFiles().map(([path, bytes]): [string, string] =>
      [path, Buffer.from(bytes).toString('base64')]));
  const commands = new Count();
  const packets = new Count();
  for (const work of works) {
    const { pdfs, ...said } = await page.evaluate(
      (args) => globalThis.sheafInPage.run(args), work.args);
    const { pdfs: theirs, ...theirSaid } = wanted(work);
    commands.add(work.args.join(' '), pdfs, theirs);
    assert.deepEqual(said, theirSaid, work.args.join(' '));
    if (work.lesson === undefined) continue;
    packets.add(work.lesson, await page.evaluate(
      ([path, text]) => globalThis.sheafInPage.packets(path ?? '', text ?? ''),
      [`/${work.lesson}`, textOf(work.lesson)]), byName(wanted(work)));
  }
  t.diagnostic(`as commands ${commands.same} PDFs the same, ${commands.other.length} not; ` +
    `as packets ${packets.same} the same, ${packets.other.length} not`);
  commands.check(works.length);
  packets.check(lessons.length);
  assert.deepEqual(faults, []);
});
