/** The row of what can be done with the open lesson. */
import { lessonSession } from '../lesson/session.js';
import { setText } from '../lesson/words.js';
import { finishForm } from '../form/form.js';
import type { Shell } from './app.js';
import { button, el, freshId, inWords } from './dom.js';
import { printPages, savePacket } from './packets.js';
import { likelyPaper, papers } from './paper.js';

export interface Wishes { newLesson(): void; open(): void }

/** What the lesson says after `layout:`; '' where it says nothing. */
export function layoutIn(text: string): string {
  const found = /^layout:[ \t]*(?:"([^"\n]*)"|'([^'\n]*)'|([^#\n]*?))[ \t]*(?:#.*)?$/m.exec(text);
  return (found?.[1] ?? found?.[2] ?? found?.[3] ?? '').trim();
}

/** "large-print" → "Large print". */
function spoken(name: string): string {
  const words = name.replace(/\.ya?ml$/, '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function layoutChoice(app: Shell): HTMLElement {
  const { session, engine } = app;
  const choose = el('select', { id: freshId('layout'), class: 'shell-choice' });
  const about = el('span', { class: 'quiet', id: freshId('about') });
  choose.setAttribute('aria-describedby', about.id);
  let names: { name: string; about: string }[] = [];
  const show = () => {
    const now = layoutIn(session.text) || 'week';
    if (![...choose.options].some((option) => option.value === now)) {
      choose.append(el('option', { value: now }, spoken(now)));
    }
    if (document.activeElement !== choose || choose.value !== now) choose.value = now;
    const said = names.find((one) => one.name === now)?.about ?? '';
    setText(about, said);
    if (choose.title !== said) choose.title = said;
  };
  void engine.layouts().then((layouts) => {
    names = layouts;
    choose.replaceChildren(...layouts.map(({ name, about }) => el('option', { value: name, title: about }, spoken(name))));
    // The one without a word in the lesson stands first.
    const week = [...choose.options].find((option) => option.value === 'week');
    if (week) choose.prepend(week);
    show();
  }, () => undefined);
  choose.addEventListener('change', () => {
    const wanted = choose.value;
    void (async () => {
      await finishForm();
      lessonSession(session).push();
      session.apply(await engine.formEdits(session.path, 'layout', wanted === 'week' ? '' : wanted));
      app.say(`The layout is now ${spoken(wanted)}.`, 'done');
    })().catch((fault: unknown) => { app.say(`The layout could not be changed: ${inWords(fault)}`, 'fault'); });
  });
  session.addEventListener('text', show);
  session.addEventListener('opened', show);
  return el('span', { class: 'shell-choice-box' }, el('label', { for: choose.id }, 'Layout'), choose, about);
}

function paperChoice(app: Shell): HTMLElement {
  const choose = el('select', { id: freshId('paper'), class: 'shell-choice' },
    ...papers.map(({ paper, name }) => el('option', { value: paper }, name)));
  const show = () => { choose.value = app.paper.value; };
  show();
  choose.addEventListener('change', () => {
    const one = papers.find(({ paper }) => paper === choose.value);
    if (!one) return;
    void app.usePaper(one.paper, true).then(
      () => app.say(one.paper === '' ? 'The paper is as the layout says.' : `The paper is now ${one.name}.`, 'done'),
      (fault: unknown) => app.say(`The paper could not be changed: ${inWords(fault)}`, 'fault'));
  });
  app.onPaper(show);
  // Slides have a paper of their own; what prints has the teacher's.
  const follow = () => {
    if (app.paper.chosen || !app.file.open) return;
    const fit = layoutIn(app.session.text) === 'board' ? '' : likelyPaper(navigator.language);
    if (fit !== app.paper.value) void app.usePaper(fit, false).catch(() => undefined);
  };
  app.session.addEventListener('text', follow);
  app.session.addEventListener('opened', follow);
  return el('span', { class: 'shell-choice-box' }, el('label', { for: choose.id }, 'Paper'), choose);
}

export function createToolbar(app: Shell, wishes: Wishes): HTMLElement {
  // One thing at a time: a second press while pages are made does nothing.
  const busy = (label: string, work: () => Promise<unknown>, kind = '') => {
    const node = button(label, () => {
      if (node.getAttribute('aria-busy') === 'true') return;
      node.setAttribute('aria-busy', 'true');
      void work().finally(() => node.removeAttribute('aria-busy'));
    }, kind);
    return node;
  };
  const keyed = (node: HTMLButtonElement, keys: string, shown: string) => {
    node.setAttribute('aria-keyshortcuts', keys);
    node.title = shown;
    return node;
  };
  const files = el('div', { class: 'shell-tools-part', role: 'group', 'aria-label': 'The lesson' },
    button('New lesson', wishes.newLesson),
    keyed(button('Open', wishes.open), 'Control+O', 'Ctrl+O'),
    keyed(busy('Save', () => app.save()), 'Control+S', 'Ctrl+S'));
  const moreId = freshId('tools');
  const pages = el('div', { class: 'shell-tools-more', id: moreId },
    el('div', { class: 'shell-tools-part', role: 'group', 'aria-label': 'How the pages look' }, layoutChoice(app), paperChoice(app)),
    el('div', { class: 'shell-tools-part', role: 'group', 'aria-label': 'The finished pages' },
      keyed(busy('Print', () => printPages(app)), 'Control+P', 'Ctrl+P'),
      busy('Packet for the learner', () => savePacket(app, 'learner'), 'main'),
      busy('Packet for the teacher', () => savePacket(app, 'teacher'))));
  // On a narrow screen these wait behind a button.
  const more = button('Print …', () => {
    const open = more.getAttribute('aria-expanded') !== 'true';
    more.setAttribute('aria-expanded', String(open));
    pages.classList.toggle('shell-tools-open', open);
  }, 'shell-tools-press');
  more.setAttribute('aria-label', 'Print …, packets, layout and paper');
  more.setAttribute('aria-expanded', 'false');
  more.setAttribute('aria-controls', moreId);
  return el('div', { class: 'shell-tools', role: 'group', 'aria-label': 'What to do with the lesson' }, files, more, pages);
}
