/** The guide, shown in the page itself. */
import type { App, Part } from '../contract.js';
import { guideFiles } from '../engine/boot.js';
import { aboutBox } from './about.js';
import { button, el, inWords } from './dom.js';
import { guideId, guideNodes } from './guide_nodes.js';

const first = 'index.html';
const kinds: Readonly<Record<string, string>> = { png: 'image/png', jpg: 'image/jpeg', jpeg: 'image/jpeg', svg: 'image/svg+xml' };

export const createGuide: Part = (parent: HTMLElement, app: App): void => {
  const page = el('div', { class: 'shell-guide-page' });
  parent.append(el('div', { class: 'shell-guide' }, page,
    el('p', { class: 'shell-guide-foot' }, button('About Sheaf', () => aboutBox(app)))));
  const addresses = new Map<string, string>();
  let shown = '';

  const picture = (files: Map<string, Uint8Array<ArrayBuffer>>, path: string): string | null => {
    const bytes = files.get(path);
    const kind = kinds[path.slice(path.lastIndexOf('.') + 1).toLowerCase()];
    if (!bytes || kind === undefined) return null;
    const known = addresses.get(path) ?? URL.createObjectURL(new Blob([bytes], { type: kind }));
    addresses.set(path, known);
    return known;
  };
  const head = () => {
    const node = page.querySelector<HTMLElement>('h1, h2');
    if (node) { node.tabIndex = -1; node.focus({ preventScroll: true }); }
  };
  const show = async (path: string, part: string, focus: boolean) => {
    const files = await guideFiles();
    const html = files.get(path);
    if (!html) {
      page.replaceChildren(el('h1', { tabindex: '-1' }, 'The guide'), el('p', {}, files.size === 0
        ? 'This copy of Sheaf came without its guide. Choose New lesson in the view Lesson, and the rest explains itself beside the text.'
        : 'The guide has no such page.'), el('p', {}, el('a', { href: '#lesson' }, 'To the lesson')));
      if (focus) head();
      return;
    }
    if (shown !== path) {
      const { nodes } = guideNodes(new TextDecoder().decode(html), {
        page: path, has: (other) => files.has(other) && other.endsWith('.html'), picture: (other) => picture(files, other),
      });
      page.replaceChildren(nodes);
      if (!page.querySelector('h1, h2')) page.prepend(el('h1', {}, 'The guide'));
      shown = path;
    }
    const place = part !== '' ? document.getElementById(guideId(part)) : null;
    if (place) {
      place.scrollIntoView();
      place.focus({ preventScroll: true });
    } else if (focus) {
      window.scrollTo(0, 0);
      head();
    }
  };
  const follow = (focus: boolean) => {
    if (!/^#guide(\/|$)/.test(location.hash)) return;
    const [path = first, part = ''] = decodeURIComponent(location.hash.replace(/^#guide\/?/, '') || first).split('#');
    void show(path, part, focus).catch((fault: unknown) => {
      page.replaceChildren(el('h1', { tabindex: '-1' }, 'The guide'), el('p', {}, inWords(fault)));
    });
  };
  window.addEventListener('hashchange', () => follow(true));
  follow(false);
};
