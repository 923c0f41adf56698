/** The files by kind, with what is to be mended in each. */
import type { App } from '../contract.js';
import { button, count, el } from '../shell/dom.js';
import { Checks } from './checks.js';
import { DeviceFolder } from './folder.js';
import { kindOf, valueOf, type Kind } from './kinds.js';
import { isPicture, shown } from './paths.js';
import { countsOf } from './said.js';
import { saidList } from './said_list.js';

export interface Listed { path: string; kind: Kind; text: string }

const kHeads: readonly { kinds: readonly Kind[]; head: string }[] = [
  { kinds: ['lesson'], head: 'Lessons' },
  { kinds: ['sequence'], head: 'What is taught in which step' },
  { kinds: ['class'], head: 'Classes' },
  { kinds: ['record'], head: 'Records' },
  { kinds: ['layout', 'sentences', 'other'], head: 'Other files' },
  { kinds: ['picture'], head: 'Pictures' },
];

/** Above this, a list is closed at first: a term has many records. Lessons are
 * what the teacher comes for, but on a narrow screen they would hide the rest. */
const kLongList = 12;

export async function listed({ folder }: App): Promise<Listed[]> {
  const files: Listed[] = [];
  for (const path of folder.paths) {
    const text = isPicture(path) || !(folder instanceof DeviceFolder) ? '' : await folder.textOf(path);
    files.push({ path, kind: kindOf(path, text), text });
  }
  return files;
}

export class FileList {
  readonly element = el('div', { class: 'folder-files' });
  readonly #app: App;
  readonly #checks: Checks;
  readonly #rows = new Map<string, HTMLElement>();
  readonly #heads: { files: readonly Listed[]; node: HTMLElement }[] = [];
  /** The lists that the teacher has opened or closed. */
  readonly #open = new Map<string, boolean>();

  constructor(app: App, checks: Checks) {
    this.#app = app;
    this.#checks = checks;
    checks.addEventListener('checked', event => {
      this.#showState((event as CustomEvent<string>).detail);
    });
  }

  show(files: readonly Listed[]): void {
    this.#rows.clear();
    this.#heads.length = 0;
    this.element.replaceChildren();
    for (const { kinds, head } of kHeads) {
      const these = files.filter(({ kind }) => kinds.includes(kind));
      if (these.length === 0) continue;
      const state = el('span', { class: 'folder-head-state' });
      const summary = el('summary', {}, el('h3', {}, `${head} (${these.length})`), state);
      const parts = el('details', { class: 'folder-kind' }, summary);
      parts.open = this.#open.get(head) ?? ((kinds.includes('lesson') && !matchMedia('(max-width: 60rem)').matches) || these.length <= kLongList);
      summary.addEventListener('click', () => { this.#open.set(head, !parts.open); });
      const all = el('ul', { class: 'folder-list' });
      for (const file of these) all.append(this.#row(file));
      parts.append(all);
      this.element.append(parts);
      this.#heads.push({ files: these, node: state });
    }
    for (const { path } of files) this.#showState(path);
  }

  #row(file: Listed): HTMLLIElement {
    const { path, kind, text } = file;
    const name = shown(path);
    const state = el('div', { class: 'folder-state' });
    const detail = kind === 'lesson' ? valueOf(text, 'pattern') : kind === 'record' ? valueOf(text, 'date')
      : valueOf(text, 'title');
    const title = kind === 'picture' ? el('span', { class: 'folder-name' }, name)
      : button(name, () => { void this.#openFile(path); }, 'folder-open');
    this.#rows.set(path, state);
    return el('li', { class: 'folder-file' }, title,
      detail !== '' && el('span', { class: 'folder-detail' }, detail), state);
  }

  async #openFile(path: string): Promise<void> {
    const bytes = await this.#app.folder.read(path);
    if (bytes === null) {
      this.#app.say(`${shown(path)} could not be read.`, 'fault');
      return;
    }
    if (await this.#app.openLesson(path, new TextDecoder().decode(bytes))) this.#app.show('lesson');
  }

  #showState(path: string): void {
    const state = this.#rows.get(path);
    const said = this.#checks.of(path);
    if (state === undefined || said === undefined) return;
    const was = state.querySelector('details')?.open === true;
    state.replaceChildren();
    const { errors, warnings } = countsOf(said);
    const worth = said.filter(({ severity }) => severity !== 'note');
    const label = stateWords(errors, warnings);
    if (worth.length === 0) {
      state.append(el('span', { class: 'folder-good' }, label));
    } else {
      const more = el('details', { class: errors > 0 ? 'folder-bad' : 'folder-look' },
        el('summary', {}, label), saidList(worth, shown(path)));
      more.open = was;
      state.append(more);
    }
    for (const { files, node } of this.#heads) {
      if (!files.some(file => file.path === path)) continue;
      const faulty = files.filter(file => countsOf(this.#checks.of(file.path) ?? []).errors > 0).length;
      node.textContent = faulty > 0 ? `✗ mistakes in ${count(faulty, 'file')}` : '';
    }
  }
}

/** The sign and the words say the same: neither stands for the other. */
function stateWords(errors: number, warnings: number): string {
  if (errors > 0) return `✗ ${count(errors, 'mistake')}${warnings > 0 ? `, ${warnings} to look at` : ''}`;
  return warnings > 0 ? `! ${warnings} to look at` : '✓ no mistakes';
}
