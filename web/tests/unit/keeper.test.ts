import './older_node.js';
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { IDBFactory } from 'fake-indexeddb';
import { bundled, unbundled, type Kept } from '../../src/store/bundle.js';
import { KeepFault, Keeper } from '../../src/store/keeper.js';
import { isSealed, keyOf, kRounds, seal, unseal, WrongPassphrase } from '../../src/store/sealing.js';

const bytes = (text: string) => new TextEncoder().encode(text);
const kPassphrase = 'four calm grey geese';
const kept: Kept = {
  folderName: 'Room4',
  files: [
    { path: '/class.yaml', bytes: bytes('learners:\n  B7:\n  QX9:\n') },
    { path: '/records/2026-03-12-oa.yaml', bytes: bytes('wrong: {QX9: bot}\n') },
    { path: '/empty.txt', bytes: bytes('') },
    { path: '/goat.png', bytes: new Uint8Array([0, 255, 13, 10, 0]) },
  ],
  lesson: { path: '/oa-boat.yaml', text: 'pattern: oa\nwords: boat “ß”\n' },
  settings: { paper: 'a4' },
};
// Few rounds: what is tested here is the same with many. One test has them all.
const quick = (factory = new IDBFactory()) => ({ factory, keeper: new Keeper(factory, 10) });

async function rawRecord(factory: IDBFactory): Promise<unknown> {
  return new Promise((resolve, reject) => {
    const opening = factory.open('sheaf-kept');
    opening.onerror = () => { reject(new Error('cannot be opened')); };
    opening.onsuccess = () => {
      const get = opening.result.transaction('kept').objectStore('kept').get('all');
      get.onsuccess = () => { opening.result.close(); resolve(get.result as unknown); };
    };
  });
}

async function putRaw(factory: IDBFactory, value: unknown): Promise<void> {
  return new Promise(resolve => {
    const opening = factory.open('sheaf-kept');
    opening.onsuccess = () => {
      const writing = opening.result.transaction('kept', 'readwrite');
      writing.objectStore('kept').put(value, 'all');
      writing.oncomplete = () => { opening.result.close(); resolve(); };
    };
  });
}

test('what is kept comes back on the next visit, with all the rounds', async () => {
  const factory = new IDBFactory();
  const first = new Keeper(factory);
  assert.equal(await first.holds(), false);
  await first.begin(kPassphrase);
  await first.keep(kept);
  const next = new Keeper(factory);
  assert.equal(await next.holds(), true);
  assert.equal(next.unlocked, false);
  assert.deepEqual(await next.unlock(kPassphrase), kept);
  assert.equal(next.unlocked, true);
  const raw = await rawRecord(factory);
  assert.ok(isSealed(raw));
  assert.ok(raw.rounds >= 600_000);
  assert.equal(raw.rounds, kRounds);
});

test('asking whether something is kept stores nothing', async () => {
  const { factory, keeper } = quick();
  assert.equal(await keeper.holds(), false);
  assert.deepEqual(await factory.databases(), []);
});

test('a wrong passphrase is told in a plain sentence and changes nothing', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  await keeper.keep(kept);
  const next = new Keeper(factory, 10);
  for (const wrong of ['four calm grey goose', '', kPassphrase + ' ']) {
    await assert.rejects(next.unlock(wrong), fault => {
      assert.ok(fault instanceof WrongPassphrase);
      assert.match(fault.message, /^That passphrase does not open what is kept here/);
      return true;
    });
    assert.equal(next.unlocked, false);
  }
  assert.deepEqual(await next.unlock(kPassphrase), kept);
});

test('nothing in the database can be read without the passphrase', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  await keeper.keep(kept);
  const raw = await rawRecord(factory);
  assert.ok(isSealed(raw));
  assert.deepEqual(Object.keys(raw).sort(), ['cipher', 'nonce', 'rounds', 'salt', 'version']);
  const all = Buffer.concat([raw.salt, raw.nonce, Buffer.from(raw.cipher)]);
  for (const plain of ['QX9', 'boat', 'class.yaml', 'Room4', 'records', 'paper', 'four', 'geese']) {
    assert.equal(all.includes(plain), false, plain);
    assert.equal(all.includes(Buffer.from(plain, 'utf16le')), false, plain);
  }
  // The test can fail: the same bytes unsealed do hold them.
  assert.ok(Buffer.from(bundled(kept)).includes('QX9'));
});

test('each write has a salt, a nonce and a cipher of its own', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  const seen = new Set<string>();
  for (let i = 0; i < 3; ++i) {
    await keeper.keep(kept);
    const raw = await rawRecord(factory);
    assert.ok(isSealed(raw));
    for (const part of [raw.salt, raw.nonce, new Uint8Array(raw.cipher)]) {
      seen.add(Buffer.from(part).toString('hex'));
    }
  }
  assert.equal(seen.size, 9);
});

test('what was changed in the database is refused, whichever part it is', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  await keeper.keep(kept);
  const raw = await rawRecord(factory);
  assert.ok(isSealed(raw));
  const turned = (part: Uint8Array<ArrayBuffer>, at: number) => {
    const copy = part.slice();
    copy[at] = (copy[at] ?? 0) ^ 1;
    return copy;
  };
  const cipher = new Uint8Array(raw.cipher);
  const changed: unknown[] = [
    { ...raw, cipher: turned(cipher, 0).buffer },
    { ...raw, cipher: turned(cipher, cipher.length - 1).buffer },
    { ...raw, cipher: cipher.slice(0, -1).buffer },
    { ...raw, cipher: new ArrayBuffer(0) },
    { ...raw, nonce: turned(raw.nonce, 3) },
    { ...raw, salt: turned(raw.salt, 3) },
    { ...raw, rounds: 11 }, { ...raw, rounds: 1e12 }, { ...raw, rounds: 0 },
    { ...raw, version: 2 },
    'something else', { }, 7,
  ];
  for (const value of changed) {
    await putRaw(factory, value);
    await assert.rejects(new Keeper(factory, 10).unlock(kPassphrase), WrongPassphrase);
  }
  await putRaw(factory, raw);
  assert.deepEqual(await new Keeper(factory, 10).unlock(kPassphrase), kept);
});

test('one step removes everything, and nothing is written after it', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  await keeper.keep(kept);
  const late = keeper.keep(kept);
  await keeper.remove();
  await late;
  assert.deepEqual(await factory.databases(), []);
  assert.equal(await keeper.holds(), false);
  assert.equal(keeper.unlocked, false);
  await assert.rejects(keeper.keep(kept), KeepFault);
  await assert.rejects(keeper.unlock(kPassphrase), /Nothing is kept here/);
});

test('no room: it is said, and what was kept before is still there', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  await keeper.keep(kept);
  const full = new Proxy(factory, {
    get: (target, name) => name === 'open'
      ? () => { throw new DOMException('full', 'QuotaExceededError'); }
      : Reflect.get(target, name, target) as unknown,
  });
  const other = new Keeper(full, 10);
  await other.begin('another one altogether');
  await assert.rejects(other.keep({ ...kept, files: [] }), fault => {
    assert.ok(fault instanceof KeepFault);
    assert.match(fault.message, /no room/);
    assert.match(fault.message, /Nothing was lost/);
    return true;
  });
  assert.deepEqual(await new Keeper(factory, 10).unlock(kPassphrase), kept);
});

test('of writes that overlap the last one stays', async () => {
  const { factory, keeper } = quick();
  await keeper.begin(kPassphrase);
  await Promise.all([1, 2, 3].map(async n => keeper.keep({ ...kept, folderName: `turn ${n}` })));
  assert.equal((await new Keeper(factory, 10).unlock(kPassphrase)).folderName, 'turn 3');
});

test('a passphrase in another form of Unicode is the same passphrase', async () => {
  const sealed = await seal(await keyOf('cafe\u0301 noir'), bytes('x'), 10);
  assert.deepEqual(await unseal(await keyOf('caf\u00e9 noir'), sealed), bytes('x'));
});

test('bytes that are no bundle are refused', () => {
  const good = bundled(kept);
  assert.deepEqual(unbundled(good), kept);
  for (const bad of [new Uint8Array(0), new Uint8Array([0, 0, 0, 9, 1]), good.slice(0, -1),
    bytes('\0\0\0\x02{}'), bytes('\0\0\0\x04null')]) {
    assert.equal(unbundled(bad), null);
  }
});
