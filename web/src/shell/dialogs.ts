/** Windows over the page, by the browser's own <dialog>. */
import { button, el, freshId, type Child } from './dom.js';

export interface Box {
  readonly element: HTMLDialogElement;
  readonly body: HTMLElement;
  close(answer?: string): void;
  /** What it was closed with; '' by Escape. */
  readonly closed: Promise<string>;
}

/** Opens at once. What had the focus gets it back when it closes. */
export function openBox(title: string, ...children: Child[]): Box {
  const id = freshId('box');
  const body = el('div', { class: 'shell-box-body' }, ...children);
  const head = el('h2', { id, tabindex: '-1' }, title);
  const element = el('dialog', { 'aria-labelledby': id, class: 'shell-box' }, head, body);
  document.body.append(element);
  const before = document.activeElement;
  const closed = new Promise<string>((settle) => {
    element.addEventListener('close', () => {
      const answer = element.returnValue;
      element.remove();
      if (before instanceof HTMLElement && before.isConnected) before.focus();
      settle(answer);
    }, { once: true });
  });
  // A press on the dark ground around it closes it, as Escape does.
  element.addEventListener('pointerdown', (event) => {
    if (event.target !== element) return;
    const box = element.getBoundingClientRect();
    const inside = event.clientX >= box.left && event.clientX <= box.right &&
        event.clientY >= box.top && event.clientY <= box.bottom;
    if (!inside) element.close('');
  });
  element.showModal();
  return { element, body, closed, close: (answer = '') => element.close(answer) };
}

export interface Choice { value: string; label: string; main?: boolean }

/** A question with a button for each answer; '' where none was pressed. */
export async function ask(title: string, text: string, choices: readonly Choice[]): Promise<string> {
  const row = el('p', { class: 'shell-box-buttons' });
  const box = openBox(title, text !== '' && el('p', {}, text), row);
  for (const choice of choices) {
    row.append(button(choice.label, () => box.close(choice.value), choice.main ? 'main' : ''));
  }
  row.querySelector('button')?.focus();
  return box.closed;
}

export async function confirmBox(question: string, yes: string): Promise<boolean> {
  const answer = await ask(question, '', [
    { value: 'yes', label: yes, main: true },
    { value: '', label: 'Leave it as it is' },
  ]);
  return answer === 'yes';
}

export function anyBoxOpen(): boolean {
  return document.querySelector('dialog[open]') !== null;
}
