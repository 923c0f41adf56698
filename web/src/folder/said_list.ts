/** Messages as a list. */
import { el, quoted } from '../shell/dom.js';
import { kSeverityWords, type Said } from './said.js';

/** `known`: the file they are about, which then need not be named. */
export function saidList(said: readonly Said[], known = ''): HTMLUListElement {
  const all = el('ul', { class: 'folder-said' });
  for (const { severity, file, line, text, help } of said) {
    const place = [file === known ? '' : file, line > 0 ? `line ${line}` : ''].filter(part => part !== '').join(', ');
    const one = el('li', { class: `folder-said-one folder-${severity}` },
      el('b', {}, `${kSeverityWords[severity]}${place === '' ? '' : ` (${place})`}: `), quoted(text));
    if (help !== '') one.append(el('span', { class: 'folder-help' }, quoted(help)));
    all.append(one);
  }
  return all;
}
