import './older_node.js';
import assert from 'node:assert/strict';
import { beforeEach, test } from 'node:test';
import { DeviceFolder, type Outside } from '../../src/folder/folder.js';
import { fromDirectory, fromDrop, fromList } from '../../src/folder/gather.js';
import { kLimits } from '../../src/folder/paths.js';
import { fakeEngine, text } from './fake_engine.js';

/** A folder on a disk, as the browser hands it out. */
class Disk {
  readonly kind = 'directory';
  readonly inside = new Map<string, Disk | Page>();
  allowed: PermissionState = 'granted';
  asked = 0;
  full = false;
  constructor(readonly name: string, readonly top: Disk | null = null) {}

  with(path: string, content: string | File): this {
    const [first = '', ...rest] = path.split('/');
    if (rest.length === 0) {
      this.inside.set(first, new Page(this.top ?? this, first, content));
    } else {
      const known = this.inside.get(first);
      const folder = known instanceof Disk ? known : new Disk(first, this.top ?? this);
      this.inside.set(first, folder);
      folder.with(rest.join('/'), content);
    }
    return this;
  }
  page(path: string): Page | undefined {
    const found = path.split('/').reduce<Disk | Page | undefined>(
      (at, part) => at instanceof Disk ? at.inside.get(part) : undefined, this);
    return found instanceof Page ? found : undefined;
  }
  async *entries() { yield* this.inside.entries(); }
  queryPermission() { return Promise.resolve('prompt'); }
  requestPermission() { ++this.asked; return Promise.resolve(this.allowed); }
  getDirectoryHandle(name: string) {
    if (!this.inside.has(name)) this.inside.set(name, new Disk(name, this.top ?? this));
    return Promise.resolve(this.inside.get(name));
  }
  getFileHandle(name: string) {
    if (!this.inside.has(name)) this.inside.set(name, new Page(this.top ?? this, name, ''));
    return Promise.resolve(this.inside.get(name));
  }
}

let clock = 1;
class Page {
  readonly kind = 'file';
  file: File;
  constructor(readonly disk: Disk, readonly name: string, content: string | File) {
    this.file = typeof content === 'string' ? this.made(content) : content;
  }
  made(content: BlobPart): File { return new File([content], this.name, { lastModified: ++clock }); }
  getFile() { return Promise.resolve(this.file); }
  createWritable() {
    let held: BlobPart = '';
    return Promise.resolve({
      write: (content: BlobPart) => {
        if (this.disk.full) return Promise.reject(new DOMException('full', 'QuotaExceededError'));
        held = content;
        return Promise.resolve();
      },
      close: () => { this.file = this.made(held); return Promise.resolve(); },
      abort: () => Promise.resolve(),
    });
  }
}

const handle = (disk: Disk) => disk as unknown as FileSystemDirectoryHandle;
function give(disk: Disk | 'stopped' | 'forbidden'): void {
  (globalThis as { showDirectoryPicker?: unknown }).showDirectoryPicker = () => disk instanceof Disk
    ? Promise.resolve(disk)
    : Promise.reject(new DOMException('', disk === 'stopped' ? 'AbortError' : 'SecurityError'));
}
async function opened(disk: Disk) {
  give(disk);
  const engine = fakeEngine();
  const saved: string[] = [];
  const folder = new DeviceFolder(engine, name => { saved.push(name); });
  assert.equal(await folder.openFolder(), true);
  return { engine, folder, saved };
}
const small = () => new Disk('spelling').with('class.yaml', 'learners: B7\n')
  .with('lessons/oa.yaml', 'pattern: oa\n').with('goat.png', 'P');

beforeEach(() => { delete (globalThis as { showDirectoryPicker?: unknown }).showDirectoryPicker; });

test('a folder goes into the engine, and asks to write only when something is written', async () => {
  const disk = small();
  const { engine, folder, saved } = await opened(disk);
  assert.equal(folder.kind, 'opened');
  assert.equal(folder.name, 'spelling');
  assert.deepEqual(folder.paths, ['/class.yaml', '/goat.png', '/lessons/oa.yaml']);
  assert.equal(text(engine.files.get('/lessons/oa.yaml')), 'pattern: oa\n');
  assert.equal(disk.asked, 0);
  assert.equal(await folder.write('/records/2026-03-12-oa.yaml', 'date: 2026-03-12\n'), 'written');
  assert.equal(disk.asked, 1);
  assert.equal(await disk.page('records/2026-03-12-oa.yaml')?.file.text(), 'date: 2026-03-12\n');
  assert.equal(text(engine.files.get('/records/2026-03-12-oa.yaml')), 'date: 2026-03-12\n');
  assert.equal(text(await folder.read('/records/2026-03-12-oa.yaml')), 'date: 2026-03-12\n');
  assert.deepEqual(saved, []);
  assert.equal(await folder.write('/packets/class-packets.pdf', new Uint8Array([37])), 'written');
  assert.equal(disk.page('packets/class-packets.pdf')?.file.size, 1);
  assert.ok(!folder.paths.includes('/packets/class-packets.pdf'));
  // Its own writing is no news from outside.
  assert.deepEqual(await folder.lookAgain(), { changed: [], added: [], gone: [] });
});

test('where writing is refused or fails, what was made is offered as a download', async () => {
  for (const spoil of [(d: Disk) => { d.allowed = 'denied'; }, (d: Disk) => { d.full = true; }]) {
    const disk = small();
    const { engine, folder, saved } = await opened(disk);
    spoil(disk);
    assert.equal(await folder.write('/lessons/oa.yaml', 'pattern: oa, ow\n'), 'downloaded');
    assert.deepEqual(saved, ['oa.yaml']);
    assert.equal(await disk.page('lessons/oa.yaml')?.file.text(), 'pattern: oa\n');
    assert.equal(text(engine.files.get('/lessons/oa.yaml')), 'pattern: oa, ow\n');
    assert.equal(text(await folder.read('/lessons/oa.yaml')), 'pattern: oa, ow\n');
  }
});

test('what another program changes is found, told and put into the engine', async () => {
  const disk = small();
  const { engine, folder } = await opened(disk);
  const told: Outside[] = [];
  let changes = 0;
  const paths: string[] = [];
  folder.addEventListener('outside', event => { told.push((event as CustomEvent<Outside>).detail); });
  folder.addEventListener('change', event => {
    ++changes;
    paths.push(...(event as CustomEvent<string[]>).detail);
  });
  await folder.lookAgain();
  assert.equal(changes, 0);
  disk.with('lessons/oa.yaml', 'pattern: ow\n').with('new.yaml', 'pattern: sh\n');
  disk.inside.delete('goat.png');
  await folder.lookAgain();
  assert.deepEqual(told, [{ changed: ['/lessons/oa.yaml'], added: ['/new.yaml'], gone: ['/goat.png'] }]);
  assert.equal(changes, 1);
  assert.deepEqual(paths, ['/lessons/oa.yaml', '/new.yaml', '/goat.png']);
  assert.equal(text(engine.files.get('/lessons/oa.yaml')), 'pattern: ow\n');
  assert.equal(engine.files.has('/goat.png'), false);
  assert.deepEqual(folder.paths, ['/class.yaml', '/lessons/oa.yaml', '/new.yaml']);
});

test('closing takes everything out of the engine', async () => {
  const { engine, folder } = await opened(small());
  await folder.close();
  assert.equal(folder.kind, 'none');
  assert.equal(engine.files.size, 0);
  assert.deepEqual(folder.paths, []);
});

test('no folder chosen: nothing changes', async () => {
  const { folder, engine } = await opened(small());
  give('stopped');
  assert.equal(await folder.openFolder(), false);
  assert.equal(folder.name, 'spelling');
  assert.equal(engine.files.size, 3);
});

test('what Sheaf does not read is left out, and it is said', async () => {
  const large = new File([], 'large.png');
  Object.defineProperty(large, 'size', { value: kLimits.bytes + 1 });
  const disk = small().with('plan.docx', 'x').with('old/plan.pdf', 'x').with('.made-from', 'x')
    .with('.git/config.txt', 'x').with('large.png', large);
  const { files, leftOut } = await fromDirectory(handle(disk));
  assert.equal(files.length, 3);
  assert.deepEqual(leftOut.sentences(), [
    '2 files of a kind that Sheaf does not read (.docx, .pdf).',
    '1 file larger than 16 megabytes (large.png).',
  ]);
});

test('no more than 2000 files are taken in', async () => {
  const disk = new Disk('many');
  for (let i = 0; i < kLimits.files + 3; ++i) disk.with(`${i}.txt`, '');
  const { files, leftOut } = await fromDirectory(handle(disk));
  assert.equal(files.length, kLimits.files);
  assert.match(leftOut.sentences().join(' '), /^3 files, because no more than 2000/);
});

function chosen(path: string): File {
  const file = new File(['x'], path.slice(path.lastIndexOf('/') + 1));
  Object.defineProperty(file, 'webkitRelativePath', { value: path.includes('/') ? path : '' });
  return file;
}

test('a chosen folder is the top; single files lie beside each other', () => {
  const folder = fromList(['room4/class.yaml', 'room4/a/b.yaml', 'room4/.x/c.yaml'].map(chosen));
  assert.equal(folder.name, 'room4');
  assert.deepEqual(folder.files.map(({ path }) => path), ['/class.yaml', '/a/b.yaml']);
  const single = fromList(['class.yaml', 'a.yaml'].map(chosen));
  assert.equal(single.name, '');
  assert.deepEqual(single.files.map(({ path }) => path), ['/class.yaml', '/a.yaml']);
});

/** What a browser hands over on a drop. A folder gives its entries in parts. */
function dropped(name: string, inside?: object[]): object {
  if (inside === undefined) {
    return { name, isDirectory: false, file: (done: (file: File) => void) => { done(new File(['x'], name)); } };
  }
  return { name, isDirectory: true, createReader: () => {
    const left = [...inside];
    return { readEntries: (done: (entries: object[]) => void) => { done(left.splice(0, 2)); } };
  } };
}
const drop = (...entries: object[]) => ({ items: [{ kind: 'string' }, ...entries.map(entry => (
  { kind: 'file', webkitGetAsEntry: () => entry }))] }) as unknown as DataTransfer;

test('a dropped folder is the top; dropped files and folders lie beside each other', async () => {
  const room = dropped('room4', [dropped('class.yaml'), dropped('.hidden.yaml'), dropped('plan.pdf'),
    dropped('lessons', [dropped('a.yaml'), dropped('b.yaml'), dropped('c.yaml')])]);
  const one = await fromDrop(drop(room));
  assert.equal(one.name, 'room4');
  assert.deepEqual(one.files.map(({ path }) => path), ['/class.yaml', '/lessons/a.yaml', '/lessons/b.yaml', '/lessons/c.yaml']);
  assert.deepEqual(one.leftOut.sentences(), ['1 file of a kind that Sheaf does not read (.pdf).']);
  const two = await fromDrop(drop(room, dropped('goat.png')));
  assert.equal(two.name, '');
  assert.deepEqual(two.files.map(({ path }) => path).slice(-2), ['/room4/lessons/c.yaml', '/goat.png']);
});

test('kept files come back as copies: saving them is a download', async () => {
  const engine = fakeEngine();
  const saved: string[] = [];
  const folder = new DeviceFolder(engine, name => { saved.push(name); });
  const files = [{ path: '/class.yaml', bytes: new TextEncoder().encode('learners: B7\n') }];
  await folder.restore('room4', files);
  assert.equal(folder.kind, 'copied');
  assert.equal(folder.name, 'room4');
  assert.deepEqual(await folder.contents(), files);
  assert.equal(await folder.write('/class.yaml', 'learners: C3\n'), 'downloaded');
  assert.deepEqual(saved, ['class.yaml']);
  assert.equal(text(await folder.read('/class.yaml')), 'learners: C3\n');
});

test('a path that leads out of the folder is refused', async () => {
  const { folder } = await opened(small());
  await assert.rejects(folder.write('/../x.yaml', ''), /cannot be the name of a file/);
});
