/** One field of the form, in step with the text. */
import type { App } from '../contract.js';
import type { Field, Message, Offer } from '../engine/types.js';
import { lessonSession } from '../lesson/session.js';
import { button, el, freshId, inWords, later } from '../shell/dom.js';
import { createPatternBox } from '../shell/pattern_box.js';
import { createFieldMessages, messagesOf } from './field_messages.js';
import { saysTheSame, withWord, wordsFor } from './keys.js';

/** Long enough that a word is whole, short enough that the pages follow. */
const pause = 250;
const fewOffers = 8;

export interface FieldBox {
  readonly element: HTMLElement;
  /** What the text says now; ignored while the teacher is typing here. */
  renew(field: Field): void;
  showMessages(messages: readonly Message[]): void;
  focus(): void;
  /** Something was typed that is not in the text yet. */
  newer(): boolean;
  /** It goes there now. */
  finish(): Promise<void>;
  /** Another lesson is open: what was typed here is no more of use. */
  drop(): void;
}

export function createField(app: App, first: Field, toText: (field: Field) => void): FieldBox {
  const { session, engine } = app;
  const words = wordsFor(first.key);
  const hintId = freshId('hint');
  const messagesId = freshId('said');
  let field = first;
  /** Typed, and not in the text yet. */
  let newer = false;
  let writing: Promise<void> = Promise.resolve();

  const pattern = first.key === 'pattern' ? createPatternBox(engine, {
    label: words.label, hint: words.hint, folded: true,
    choose(found) { input.value = found.value; typed.cancel(); newer = true; void write(); },
  }) : null;
  const input = pattern ? pattern.input
    : first.lines || first.key === 'words' || first.key === 'dictate-words' ? el('textarea', { rows: 1, spellcheck: 'true' })
    : el('input', { type: 'text', autocomplete: 'off' });
  input.id ||= freshId('field');
  input.classList.add('form-input');
  input.setAttribute('aria-describedby', pattern ? `${input.getAttribute('aria-describedby') ?? ''} ${messagesId}`.trim() : `${hintId} ${messagesId}`);
  const fit = () => {
    if (!(input instanceof HTMLTextAreaElement)) return;
    // As tall as what is in it, so that nothing is read through a slit. The same
    // with the focus and without, or a press on what is below would miss it.
    const lines = input.value.trim() === '' ? 1 : input.value.split('\n').length;
    input.rows = Math.min(14, lines + (first.lines ? 1 : 0));
    const more = input.scrollHeight - input.clientHeight;
    if (more > 4 && input.clientHeight > 0) input.rows = Math.min(14, input.rows + Math.ceil(more / 26));
  };

  let width = 0;
  new ResizeObserver(([entry]) => {
    const now = entry?.contentRect.width ?? 0;
    if (Math.abs(now - width) < 1) return;
    width = now;
    fit();
  }).observe(input);

  const said = createFieldMessages(app, messagesId, () => { input.focus(); });
  const offers = el('div', { class: 'form-offers', role: 'group', 'aria-label': `Words to add to ${words.label}` });
  const held = el('p', { class: 'form-held' });
  held.hidden = true;
  const element = el('div', { class: 'form-field' },
    ...(pattern ? [pattern.element] : [
      el('label', { for: input.id, class: 'shell-label' }, words.label),
      words.hint !== '' && el('p', { id: hintId, class: 'shell-hint' }, words.hint), input]),
    held, said.element, words.offers && offers);

  const write = (): Promise<void> => {
    writing = writing.then(async () => {
      // The text may change while Sheaf works out the edit: then once more.
      for (let tries = 0; newer && tries < 4; ++tries) {
        const { path, text } = session;
        const value = input.value;
        lessonSession(session).push();
        const edits = await engine.formEdits(path, first.key, value);
        if (session.path !== path) return;
        if (session.text !== text) continue;
        if (input.value === value) newer = false;
        if (edits.length > 0) session.apply(edits);
      }
    }).catch((fault: unknown) => { app.say(`What you wrote in ${words.label} is not in the lesson yet: ${inWords(fault)}`, 'fault'); });
    return writing;
  };
  const typed = later(pause, () => { void write(); });

  input.addEventListener('input', () => {
    newer = true;
    fit();
    // Half a search is no pattern: it waits until one is taken, or the field left.
    if (!pattern) typed();
  });
  input.addEventListener('blur', () => {
    typed.cancel();
    if (newer) void write();
  });

  let wanted = false;
  let all: Offer[] = [];
  const drawOffers = () => {
    const there = new Set(input.value.toLowerCase().split(/[\s,]+/));
    const free = all.filter((offer) => !there.has(offer.label.toLowerCase()));
    const shown = wanted ? free : free.slice(0, fewOffers);
    const within = offers.contains(document.activeElement);
    const add = (offer: Offer, at: number) => {
      const node = button(`+ ${offer.label}`, () => {
        input.value = withWord(input.value, offer.label);
        newer = true;
        fit();
        drawOffers();
        const buttons = offers.querySelectorAll('button');
        (buttons[Math.min(at, buttons.length - 1)] ?? input).focus();
        typed.cancel();
        void write();
      }, 'form-offer');
      node.setAttribute('aria-label', `Add ${offer.label}`);
      if (offer.detail !== '') node.title = [offer.detail, offer.more].filter((part) => part !== '').join('; ');
      return node;
    };
    offers.replaceChildren(...shown.map(add));
    if (free.length > fewOffers) {
      offers.append(button(wanted ? 'Fewer' : 'More words', () => { wanted = !wanted; drawOffers(); }, 'form-offer form-more'));
    }
    if (within && !offers.contains(document.activeElement)) (offers.querySelector('button') ?? input).focus();
  };
  let asked = 0;
  const renewOffers = later(400, () => {
    const { range } = field;
    if (!words.offers || !field.present || !field.editable || !range) { all = []; drawOffers(); return; }
    asked += 1;
    const mine = asked;
    void engine.completions(session.path, range.to).then((found) => {
      if (mine !== asked) return;
      all = found.filter((offer) => offer.kind === 'word');
      drawOffers();
    }, () => undefined);
  });

  return {
    element,
    renew(next) {
      field = next;
      const busy = document.activeElement === input;
      if (!newer && !(busy && saysTheSame(input.value, next.text, next.lines)) && input.value !== next.text) {
        const from = input.selectionStart;
        input.value = next.text;
        if (busy && from !== null) input.setSelectionRange(from, from);
        fit();
      }
      input.readOnly = !next.editable;
      if (held.hidden !== next.editable) {
        held.hidden = next.editable;
        held.replaceChildren('This is written in more than plain words, so it is changed in the text. ',
          button('Show it in the text', () => toText(field)));
      }
      input.hidden = !next.editable && next.text === '';
      renewOffers();
    },
    showMessages(messages) {
      const mine = messagesOf(field, messages, session.path);
      said.show(mine);
      if (mine.some((message) => message.severity === 'error')) input.setAttribute('aria-invalid', 'true');
      else input.removeAttribute('aria-invalid');
      fit();
    },
    focus() {
      element.scrollIntoView({ block: 'nearest' });
      input.focus({ preventScroll: true });
    },
    newer: () => newer,
    drop() {
      typed.cancel();
      renewOffers.cancel();
      newer = false;
    },
    async finish() {
      typed.cancel();
      if (newer) await write();
      else await writing;
    },
  };
}
