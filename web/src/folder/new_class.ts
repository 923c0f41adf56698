/** A first class file: codes, and the lesson they all begin with. */
import type { App } from '../contract.js';
import { button, el } from '../shell/dom.js';
import { isCode } from './class_codes.js';
import type { Listed } from './file_list.js';
import { fillSelect, labelled, whileBusy } from './form_parts.js';
import { shown } from './paths.js';

/** The text of the file; null where one of the words is no code. What it was is
 * not repeated: it may be a name. */
export function classText(codes: string, lesson: string): string | null {
  const all = [...new Set(codes.split(/[\s,;]+/).filter(code => code !== ''))];
  if (all.length === 0 || !all.every(isCode)) return null;
  return `${lesson === '' ? '' : `lesson: ${plain(lesson)}\n`}learners:\n${all.map(code => `  ${code}:\n`).join('')}`;
}

function plain(name: string): string {
  return /^[\w./ -]+$/.test(name) && name.trim() === name ? name : JSON.stringify(name);
}

export function newClassForm(app: App): { element: HTMLElement; show(files: readonly Listed[]): void } {
  const codes = el('input', { type: 'text', class: 'folder-wide', autocomplete: 'off', spellcheck: 'false' });
  const lesson = el('select');
  const fault = el('p', { class: 'folder-bad', role: 'alert' });
  const make = button('Make the class', () => {
    void whileBusy(make, 'Making…', async () => {
      const text = classText(codes.value, lesson.value);
      fault.textContent = text === null
        ? 'Give a code for each learner: up to three capital letters, or a number with up to three letters. Sheaf takes no names.' : '';
      if (text === null) { codes.focus(); return; }
      const how = await app.folder.write('/class.yaml', text);
      codes.value = '';
      app.say(how === 'written' ? 'class.yaml is in your folder.' : 'class.yaml is with your downloads: put it beside your lessons.', 'done');
    });
  });
  const element = el('section', { class: 'folder-part', 'aria-label': 'A class' }, el('h2', {}, 'A class'),
    el('p', {}, 'Learners stand in a class by a code, never by name. Then each gets a packet of their own.'),
    el('div', { class: 'folder-row' },
      labelled('Codes of the learners', codes, 'Initials or a number, as in B7 C3 AB.'),
      labelled('Lesson to begin with', lesson), make), fault);
  return {
    element,
    show(files) {
      const lessons = files.filter(({ kind }) => kind === 'lesson');
      element.hidden = lessons.length === 0 || files.some(({ kind }) => kind === 'class');
      fillSelect(lesson, lessons.map(({ path }) => ({ value: shown(path), label: shown(path) })));
    },
  };
}
