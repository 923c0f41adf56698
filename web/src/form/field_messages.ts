/** What Sheaf says of one field, under it, with its mends. */
import type { App } from '../contract.js';
import type { Field, Message } from '../engine/types.js';
import { button, el, inWords, quoted } from '../shell/dom.js';

const kinds = {
  error: { sign: '✕', word: 'To be mended' },
  warning: { sign: '△', word: 'Worth a look' },
  note: { sign: '○', word: 'Note' },
} as const;

/** Those whose place lies in the field. */
export function messagesOf(field: Field, messages: readonly Message[], path: string): Message[] {
  const { range } = field;
  if (!range) return [];
  return messages.filter((message) => message.path === path && message.range !== null &&
      message.range.from >= range.from && message.range.from <= range.to);
}

function oneMessage(app: App, message: Message, done: () => void): HTMLElement {
  const { sign, word } = kinds[message.severity];
  const node = el('li', { class: `form-message form-${message.severity}` },
    el('p', { class: 'form-message-text' }, el('b', {}, el('span', { 'aria-hidden': 'true' }, `${sign} `), `${word}: `), quoted(message.text)),
    message.help !== '' && el('p', { class: 'form-message-help' }, quoted(message.help)));
  for (const fix of message.fixes) {
    node.append(button(fix.label.replaceAll('`', ''), () => {
      void app.session.applyFiles(fix.files).then(
        () => { app.say(fix.label.replaceAll('`', ''), 'done'); done(); },
        (fault: unknown) => { app.say(`It could not be mended: ${inWords(fault)}`, 'fault'); });
    }, 'form-mend'));
  }
  return node;
}

/** Draws them anew only where they are others, or a button would be taken from
 * under a finger. */
export function createFieldMessages(app: App, id: string, done: () => void): { element: HTMLElement; show(messages: readonly Message[]): void } {
  const element = el('ul', { class: 'form-messages', id });
  let shown = '';
  return {
    element,
    show(messages) {
      const now = JSON.stringify(messages.map(({ severity, text, help, fixes }) => [severity, text, help, fixes]));
      if (now === shown) return;
      shown = now;
      const within = element.contains(document.activeElement);
      element.replaceChildren(...messages.map((message) => oneMessage(app, message, done)));
      if (within) done();
    },
  };
}
