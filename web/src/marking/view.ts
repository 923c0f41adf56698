/** The view of marking: one learner's words at once, a class, and the weeks. */
import type { Part } from '../contract.js';
import { listed } from '../folder/file_list.js';
import { el, freshId, later } from '../shell/dom.js';
import { ClassMarking } from './class_view.js';
import { ProgressView } from './progress_view.js';
import { TryView } from './try_view.js';

export const createMarkingView: Part = (parent, app) => {
  const tries = new TryView(app);
  const classes = new ClassMarking(app);
  const progress = new ProgressView(app);
  const parts = [
    { label: 'What they wrote', node: tries.element },
    { label: 'A class', node: classes.element },
    { label: 'Progress', node: progress.element },
  ];
  const tabs = el('div', { class: 'marking-tabs', role: 'tablist', 'aria-label': 'Ways of marking' });
  const buttons = parts.map(({ label, node }, i) => {
    const id = freshId('marking');
    node.id = freshId('marking');
    node.setAttribute('role', 'tabpanel');
    node.setAttribute('aria-labelledby', id);
    node.removeAttribute('aria-label');
    const tab = el('button', { type: 'button', role: 'tab', id, class: 'marking-tab', 'aria-controls': node.id }, label);
    tab.addEventListener('click', () => { choose(i, false); });
    tab.addEventListener('keydown', event => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
      const to = event.key === 'Home' ? 0 : event.key === 'End' ? parts.length - 1
        : step === undefined ? -1 : (i + step + parts.length) % parts.length;
      if (to < 0) return;
      event.preventDefault();
      choose(to, true);
    });
    tabs.append(tab);
    return tab;
  });
  const look = later(300, () => {
    if (!seen) return;
    void tries.look();
    if (!progress.element.hidden) void progress.look();
  });
  const choose = (chosen: number, focus: boolean) => {
    parts.forEach(({ node }, i) => { node.hidden = i !== chosen; });
    buttons.forEach((tab, i) => {
      tab.setAttribute('aria-selected', String(i === chosen));
      tab.tabIndex = i === chosen ? 0 : -1;
    });
    if (focus) buttons[chosen]?.focus();
    look();
  };
  const view = el('div', { class: 'marking-view' }, el('h1', {}, 'Marking'), tabs, ...parts.map(({ node }) => node));
  parent.append(view);

  let seen = false;
  new IntersectionObserver(entries => {
    seen = entries.some(entry => entry.isIntersecting);
    if (seen) look();
  }).observe(tabs);
  app.session.addEventListener('text', look);
  let number = 0;
  const files = async () => {
    const mine = ++number;
    const now = await listed(app);
    if (mine !== number) return;
    classes.show(now);
    progress.show(now);
    look();
  };
  app.folder.addEventListener('change', () => { void files(); });
  void files();
  choose(0, false);
};
