/** The views, and going from one to the other; the browser's own Back works. */
import type { View } from '../contract.js';
import type { Shell } from './app.js';
import { el } from './dom.js';

const labels: readonly { view: View; label: string; title: string }[] = [
  { view: 'lesson', label: 'Lesson', title: 'Lesson' },
  { view: 'folder', label: 'Folder', title: 'Folder and class' },
  { view: 'marking', label: 'Marking', title: 'Marking' },
  { view: 'guide', label: 'Guide', title: 'Guide' },
];

export type Places = Readonly<Record<View, HTMLElement>>;

export interface Views { readonly nav: HTMLElement; readonly main: HTMLElement; readonly places: Places }

function viewOf(hash: string): View {
  const name = hash.replace(/^#/, '').split('/')[0];
  return labels.find(({ view }) => view === name)?.view ?? 'lesson';
}

export function createViews(app: Shell): Views {
  const section = (view: View) => {
    const node = el('section', { class: `shell-view shell-view-${view}`, 'aria-label': labels.find((one) => one.view === view)?.title });
    node.hidden = true;
    return node;
  };
  const places: Places = { lesson: section('lesson'), folder: section('folder'), marking: section('marking'), guide: section('guide') };
  const links = new Map<View, HTMLAnchorElement>();
  const nav = el('nav', { class: 'shell-nav', 'aria-label': 'Views' });
  for (const { view, label } of labels) {
    const link = el('a', { href: `#${view}`, class: 'shell-nav-one' }, label);
    // What was said of one view is of no use in another.
    link.addEventListener('click', () => app.status.settle());
    links.set(view, link);
    nav.append(link);
  }
  const main = el('main', { class: 'shell-main', id: 'shell-main', tabindex: '-1' }, ...Object.values(places));

  let now: View | null = null;
  const show = (view: View, focus: boolean) => {
    if (now === view) return;
    now = view;
    for (const { view: one } of labels) {
      places[one].hidden = one !== view;
      if (one === view) links.get(one)?.setAttribute('aria-current', 'page');
      else links.get(one)?.removeAttribute('aria-current');
    }
    document.body.dataset.view = view;
    if (view !== 'lesson') document.title = `${labels.find((one) => one.view === view)?.title ?? ''} · Sheaf`;
    else app.file.dispatchEvent(new Event('change'));
    // Whoever hears the page is told where they are.
    if (focus) {
      const head = view === 'lesson' && app.file.open ? document.querySelector<HTMLElement>('.shell-file') : [...places[view].querySelectorAll<HTMLElement>('h1, h2')].find((one) => one.offsetParent !== null);
      if (head) { head.tabIndex = -1; head.focus({ preventScroll: true }); } else main.focus({ preventScroll: true });
      window.scrollTo(0, 0);
    }
  };
  window.addEventListener('hashchange', () => show(viewOf(location.hash), true));
  app.onShow((view) => {
    if (viewOf(location.hash) !== view) location.hash = view;
    show(view, now !== view);
  });
  show(viewOf(location.hash), false);
  return { nav, main, places };
}
