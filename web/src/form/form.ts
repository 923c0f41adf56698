/** The lesson as a form. The text stays the truth: what is typed here changes
 * it, and what changes there is shown here. */
import type { App, Part } from '../contract.js';
import type { Field, Range } from '../engine/types.js';
import { button, count, el, later, quoted } from '../shell/dom.js';
import { lessonSession } from '../lesson/session.js';
import { createField, type FieldBox } from './field.js';
import { inFormOrder } from './keys.js';

/** The fields of the page's one form. */
const boxes = new Map<string, FieldBox>();

/** Whoever saves or prints the text waits until all that was typed is in it. */
export async function finishForm(): Promise<void> {
  for (const box of boxes.values()) await box.finish();
}
export function formHasNewer(): boolean {
  return [...boxes.values()].some((box) => box.newer());
}

export const createForm: Part = (parent: HTMLElement, app: App): void => {
  const { session, engine } = app;
  const step = (label: string, keys: string, go: () => void) => {
    const node = button(label, () => { void finishForm().then(go); }, 'form-step');
    node.title = keys;
    return node;
  };
  const tools = el('div', { class: 'form-tools' },
    step('Undo', 'Takes back the last change of the lesson', () => lessonSession(session).undo()),
    step('Redo', 'Makes it again', () => lessonSession(session).redo()));
  const broken = el('p', { class: 'form-broken', role: 'status' });
  broken.hidden = true;
  const fields = el('div', { class: 'form-fields' });
  const others = el('div', { class: 'form-others' });
  // No <form>: there is nothing to send, and Enter must not try.
  parent.append(el('div', { class: 'form' }, tools, broken, fields, others));

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
    others.append(el('p', {}, `${count(elsewhere.length, 'mistake')} elsewhere in the text:`));
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
    lessonSession(session).push();
    const answer = await engine.form(session.path);
    if (mine !== asking || path !== session.path) return;
    shown = inFormOrder(answer);
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
    if (!parent.hidden) showMessages();
  };
  const soon = later(120, () => { void renew().catch(() => undefined); });
  // While nobody sees it, it waits until typing rests.
  const late = later(220, () => { void renew().catch(() => undefined); });
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
    // Nothing typed for the one before may go into this one.
    for (const box of boxes.values()) box.drop();
    boxes.clear();
    fields.replaceChildren();
    path = session.path;
    parent.scrollTop = 0;
    soon.cancel();
    late.cancel();
    void renew().catch(() => undefined);
  });
  session.addEventListener('text', () => {
    soon.cancel();
    late.cancel();
    if (parent.hidden) late();
    else soon();
  });
  parent.addEventListener('sheaf-shown', () => {
    soon.cancel();
    late.cancel();
    void renew().catch(() => undefined);
  });
  // What nobody sees is brought up to date when it is shown.
  session.addEventListener('messages', () => { if (!parent.hidden) showMessages(); });
};

