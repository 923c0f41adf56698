/** What the module throws: a text that cannot be read clears up behind it and leaves
 * nothing; what breaks off says so, and is not asked again. */

import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { Refusal } from '../../src/engine/instance.js';
import { InNode } from './in_node.js';

const path = '/teacher/kite.yaml';
const lesson = readFileSync('../lessons/i-e-kite.yaml', 'utf8');

test('texts that are no YAML leave nothing behind', async () => {
  const instance = await (await InNode.open()).fresh();
  const type = (text: string): number => {
    instance.ask({ do: 'change', path, text });
    return (instance.ask({ do: 'messages', path }).json as unknown[]).length;
  };
  // Refused by the library that reads YAML, by what Sheaf makes of it, and by both.
  const wrong = [lesson + '\nteach: [a, {b', 'words: *kite\n' + lesson, '%YAML 9\n' + lesson,
    lesson + '\n' + '- ['.repeat(300)];
  for (const text of wrong) assert.ok(type(text) > 0, text.slice(0, 40));
  const said = type(lesson);
  instance.ask({ do: 'pages', path });
  const before = instance.size;
  for (let i = 0; i < 1500; ++i) type(`${wrong[i % wrong.length] ?? ''}\n# ${String(i)}`);
  assert.equal(type(lesson), said);
  assert.ok(instance.size - before <= 2 << 20,
    `${String(instance.size - before)} bytes more after 1,500 texts`);
});

test('lessons with every fault and every option are answered, one after another', async (t) => {
  const folder = '../tests/golden';
  const instance = await (await InNode.open()).fresh();
  let answers = 0;
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.yaml'))) {
    const text = readFileSync(join(folder, name), 'utf8');
    for (const what of ['change', 'messages', 'outline', 'form', 'formatted', 'pages', 'close']) {
      instance.ask({ do: what, path: `/teacher/${name}`, text });
      answers += 1;
    }
  }
  t.diagnostic(`${String(answers)} answers in ${String(instance.size >> 20)} MiB`);
  assert.ok(answers > 2000);
});

test('an answer that broke off says so', async () => {
  const instance = await (await InNode.open()).fresh();
  const refusal = (request: object): Refusal => {
    try {
      instance.ask(request);
    } catch (fault) {
      assert.ok(fault instanceof Refusal);
      return fault;
    }
    throw new Error('it was answered');
  };
  assert.equal(refusal({ do: 'packets', path: '/teacher/none.yaml' }).spent, true);
  instance.ask({ do: 'change', path, text: lesson });
  assert.equal(refusal({ do: 'draw', path, page: 99, dpi: 60 }).spent, false);
  assert.equal(refusal({ do: 'nothing', path, from: 0, to: 0 }).spent, false);
});
