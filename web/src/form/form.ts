/** The lesson as a form. The text stays the truth: what is typed here changes
 * it, and what changes there is shown here. */
import type { App, Part } from '../contract.js';
import type { Field, Range } from '../engine/types.js';
import { button, count, el, later, quoted } from '../shell/dom.js';
import { createField, type FieldBox } from './field.js';
import { inFormOrder } from './keys.js';

export const createForm: Part = (parent: HTMLElement, app: App): void => {
  const { session, engine } = app;
  const boxes = new Map<string, FieldBox>();
  const broken = el('p', { class: 'form-broken', role: 'status' });
  broken.hidden = true;
  const fields = el('div', { class: 'form-fields' });
  const others = el('div', { class: 'form-others' });
  // No <form>: there is nothing to send, and Enter must not try.
  parent.append(el('div', { class: 'form' }, broken, fields, others));

  // Asks for the text even where a field has the place.
  let leaving = false;
  const showInText = (range: Range) => {
    leaving = true;
    session.goTo(range);
    leaving = false;
  };
  const toText = (field: Field) => {
    if (field.range) showInText({ from: field.range.from, to: field.range.from });
  };
  const showMessages = () => {
    for (const box of boxes.values()) box.showMessages(session.messages);
    // What belongs to no field must not be missed by whoever sees only these.
    const elsewhere = session.messages.filter((message) => message.severity === 'error' && message.path === session.path &&
        !shown.some((field) => field.range && message.range &&
          message.range.from >= field.range.from && message.range.from <= field.range.to));
    others.replaceChildren();
    if (elsewhere.length === 0) return;
    others.append(el('p', {}, `${count(elsewhere.length, 'more mistake')} in the text:`));
    for (const message of elsewhere.slice(0, 5)) {
      const { range } = message;
      others.append(el('p', { class: 'form-message-text' }, quoted(message.text), ' ',
        range ? button(`Go to line ${message.line ?? ''}`, () => showInText(range)) : ''));
    }
  };

  let shown: Field[] = [];
  let path = '';
  let asking = 0;
  const renew = async () => {
    if (session.path === '') return;
    asking += 1;
    const mine = asking;
    await engine.change(session.path, session.text);
    const answer = await engine.form(session.path);
    if (mine !== asking) return;
    shown = inFormOrder(answer);
    if (path !== session.path) {
      // Another lesson: nothing typed for the one before may go into it.
      path = session.path;
      boxes.clear();
      fields.replaceChildren();
    }
    for (const field of shown) {
      let box = boxes.get(field.key);
      if (!box) {
        box = createField(app, field, toText);
        boxes.set(field.key, box);
        fields.append(box.element);
      }
      box.renew(field);
    }
    broken.hidden = answer.length > 0;
    if (answer.length === 0) broken.textContent = 'This text is no lesson that a form can show. Write in the text.';
    showMessages();
  };
  const soon = later(120, () => { void renew().catch(() => undefined); });
  // A place in the lesson is wanted: the field that has it takes the focus.
  parent.addEventListener('sheaf-show-field', (event) => {
    if (leaving) return;
    const { from } = (event as CustomEvent<Range>).detail;
    const field = shown.find(({ range, editable }) => editable && range && range.from <= from && from <= range.to);
    const box = field && boxes.get(field.key);
    if (!box) return;
    event.preventDefault();
    box.focus();
  });
  session.addEventListener('opened', () => {
    path = '';
    parent.scrollTop = 0;
    soon.cancel();
    void renew().catch(() => undefined);
  });
  session.addEventListener('text', soon);
  session.addEventListener('answers', showMessages);
};

