/** The line at the foot of the page that says what was done or went wrong. */
import { button, el } from './dom.js';

export interface Status {
  readonly element: HTMLElement;
  say(text: string, kind?: 'done' | 'fault'): void;
  /** Takes away what was said, but no button that somebody may still want. */
  settle(): void;
  /** The same with a button that does something about it. */
  offer(text: string, label: string, press: () => void): void;
}

/** Milliseconds. */
const doneStays = 20_000;

export function createStatus(): Status {
  // Both are there from the beginning: a screen reader follows only what it
  // has seen empty.
  const calm = el('p', { class: 'shell-said', role: 'status' });
  const alarm = el('p', { class: 'shell-said shell-fault', role: 'alert' });
  const help = el('span', { class: 'shell-said-help' });
  const close = button('Hide', () => clear(), 'shell-said-close');
  close.setAttribute('aria-label', 'Hide this line');
  close.hidden = true;
  const element = el('footer', { class: 'shell-status' }, calm, alarm, help, close);

  let timer: ReturnType<typeof setTimeout> | undefined;
  const clear = () => {
    // Only emptied: it has to stay on the page to be heard.
    clearTimeout(timer);
    calm.textContent = '';
    alarm.textContent = '';
    help.replaceChildren();
    close.hidden = true;
    element.classList.remove('shell-status-open');
  };
  const say = (text: string, kind?: 'done' | 'fault') => {
    clear();
    if (text === '') return;
    // Saying the same twice must be heard twice, so the line was emptied first.
    timer = setTimeout(() => {
      const line = kind === 'fault' ? alarm : calm;
      line.classList.toggle('shell-done', kind === 'done');
      line.textContent = text;
      // What went well need not be taken away by hand.
      if (kind === 'done') timer = setTimeout(clear, doneStays);
    }, 30);
    close.hidden = false;
    element.classList.add('shell-status-open');
  };
  return {
    element,
    say,
    settle() {
      if (help.childElementCount === 0) clear();
    },
    offer(text, label, press) {
      say(text);
      help.append(button(label, () => { clear(); press(); }));
    },
  };
}
