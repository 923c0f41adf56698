/** Tabs by the usual pattern: arrows move between them, Tab goes into the panel. */
import { setText } from '../lesson/words.js';
import { el, freshId } from './dom.js';

export interface Tab { name: string; label: string; panel: HTMLElement }

export interface Tabs {
  readonly element: HTMLElement;
  readonly now: string;
  choose(name: string): void;
  /** More behind the label: "Messages, 3". */
  label(name: string, text: string): void;
}

export function createTabs(title: string, tabs: readonly Tab[], style: string, changed: (name: string) => void): Tabs {
  let now = tabs[0]?.name ?? '';
  const list = el('div', { role: 'tablist', 'aria-label': title, class: style });
  const buttons = tabs.map((tab) => {
    tab.panel.id ||= freshId('panel');
    const node = el('button', {
      type: 'button', role: 'tab', class: 'shell-tab', id: freshId('tab'), 'aria-controls': tab.panel.id,
    }, tab.label);
    node.addEventListener('click', () => choose(tab.name));
    list.append(node);
    return node;
  });
  const mark = () => {
    tabs.forEach((tab, i) => {
      const chosen = tab.name === now;
      buttons[i]?.setAttribute('aria-selected', String(chosen));
      buttons[i]?.setAttribute('tabindex', chosen ? '0' : '-1');
    });
  };
  const choose = (name: string) => {
    if (!tabs.some((tab) => tab.name === name)) return;
    now = name;
    mark();
    changed(name);
  };
  list.addEventListener('keydown', (event) => {
    const at = tabs.findIndex((tab) => tab.name === now);
    const next = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: tabs.length - 1 }[event.key];
    if (next === undefined) return;
    event.preventDefault();
    const i = (next + tabs.length) % tabs.length;
    choose(tabs[i]?.name ?? now);
    buttons[i]?.focus();
  });
  mark();
  return {
    element: list,
    get now() { return now; },
    choose,
    label(name, text) {
      const node = buttons[tabs.findIndex((tab) => tab.name === name)];
      if (node) setText(node, text);
    },
  };
}
