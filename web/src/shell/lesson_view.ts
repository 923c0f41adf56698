/** The lesson view: form or text on the left with its messages below, the pages
 * on the right; on a narrow screen one of the three at a time. */
import type { Part } from '../contract.js';
import type { Shell } from './app.js';
import { el } from './dom.js';
import { createBeginning, newLessonBox } from './new_lesson.js';
import { createSplitter } from './splitter.js';
import { createTabs } from './tabs.js';
import { createToolbar } from './toolbar.js';

export interface Parts { editor: Part; form: Part; pages: Part; messages: Part }

export interface LessonView {
  /** The name of the lesson, for the bar on top. */
  readonly name: HTMLElement;
}

/** Whether one part is shown at a time. The style says the same (shell.css). */
const narrow = () => window.matchMedia('(max-width: 56rem)');

export function createLessonView(parent: HTMLElement, app: Shell, parts: Parts, open: () => void): LessonView {
  const newLesson = () => newLessonBox(app);
  const beginning = createBeginning(app, open);

  const name = el('h1', { class: 'shell-file', tabindex: '-1' });
  const text = el('div', { class: 'shell-panel', role: 'tabpanel', 'aria-label': 'Text' });
  const form = el('div', { class: 'shell-panel', role: 'tabpanel', 'aria-label': 'Form' });
  const ways = createTabs('How to write', [
    { name: 'form', label: 'Form', panel: form }, { name: 'text', label: 'Text', panel: text },
  ], 'shell-ways', (way) => {
    form.hidden = way !== 'form';
    text.hidden = way !== 'text';
    if (way === 'form') form.dispatchEvent(new Event('sheaf-shown'));
  });
  const write = el('section', { class: 'shell-write', 'aria-label': 'The lesson' },
    el('h2', { class: 'quiet' }, 'The lesson'), ways.element, form, text);
  const messages = el('section', { class: 'shell-messages', 'aria-label': 'Messages' });
  const pages = el('section', { class: 'shell-pages', 'aria-label': 'Pages' },
    el('h2', { class: 'quiet' }, 'Pages'));
  const left = el('div', { class: 'shell-left' }, write, messages);
  const desk = el('div', { class: 'shell-desk' });
  const places = createTabs('What to see', [
    { name: 'write', label: 'Write', panel: write },
    { name: 'pages', label: 'Pages', panel: pages },
    { name: 'messages', label: 'Messages', panel: messages },
  ], 'shell-places', (place) => { desk.dataset.place = place; });
  desk.append(left, createSplitter(desk), pages);
  desk.dataset.place = 'write';
  ways.choose('form');

  const work = el('div', { class: 'shell-work' },
    el('div', { class: 'shell-bar' }, createToolbar(app, { newLesson, open })), places.element, desk);
  work.hidden = true;
  parent.append(beginning, work);

  parts.form(form, app);
  parts.editor(text, app);
  parts.pages(pages, app);
  parts.messages(messages, app);

  const head = () => {
    // The focus must not vanish with what had it.
    const begun = app.file.open && beginning.contains(document.activeElement);
    beginning.hidden = app.file.open;
    work.hidden = !app.file.open;
    name.hidden = !app.file.open;
    name.replaceChildren(app.file.name,
      app.file.unsaved ? el('span', { class: 'shell-unsaved' }, ' not saved') : '');
    if (begun) name.focus();
    document.title = app.file.open ? `${app.file.unsaved ? '• ' : ''}${app.file.name} · Sheaf` : 'Sheaf';
  };
  app.file.addEventListener('change', head);
  head();

  app.session.addEventListener('opened', () => {
    // The panels were not there to be measured until now.
    head();
    places.choose('write');
  });
  app.session.addEventListener('messages', () => {
    const { messages: all } = app.session;
    places.label('messages', all.length > 0 ? `Messages, ${all.length}` : 'Messages');
  });
  app.session.addEventListener('answers', () => {
    const { length } = app.session.pages.pages;
    places.label('pages', length > 0 ? `Pages, ${length}` : 'Pages');
  });
  // Whoever leads to a place in the lesson need not know what is shown: here the
  // form's field that has it is shown, and else the text.
  const { session } = app;
  const goTo = session.goTo.bind(session);
  session.goTo = (range) => {
    if (narrow().matches) places.choose('write');
    const wish = new CustomEvent('sheaf-show-field', { detail: range, cancelable: true });
    if (ways.now === 'form' && !form.dispatchEvent(wish)) {
      // The cursor goes there all the same: the pages follow it.
      goTo(range);
      return;
    }
    ways.choose('text');
    goTo(range);
  };
  return { name };
}
