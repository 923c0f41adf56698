/** Fields that the views of the folder and of marking share. */
import { el, freshId } from '../shell/dom.js';

export interface Option { value: string; label: string }

/** A label above its field. */
export function labelled(label: string, field: HTMLElement, hint = ''): HTMLElement {
  if (field.id === '') field.id = freshId('field');
  const node = el('div', { class: 'folder-field' }, el('label', { for: field.id }, label), field);
  if (hint !== '') {
    const id = freshId('hint');
    field.setAttribute('aria-describedby', id);
    node.append(el('span', { class: 'folder-hint', id }, hint));
  }
  return node;
}

/** New choices; what was chosen stays chosen where it is still one of them. */
export function fillSelect(select: HTMLSelectElement, options: readonly Option[]): void {
  const before = select.value;
  select.replaceChildren(...options.map(({ value, label }) => el('option', { value }, label)));
  if (options.some(({ value }) => value === before)) select.value = before;
}

/** Today where the teacher is, as in 2026-03-12. */
export function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** While `work` runs, the button says so and cannot be pressed again. */
export async function whileBusy(button: HTMLButtonElement, label: string, work: () => Promise<void>):
Promise<void> {
  if (button.getAttribute('aria-busy') === 'true') return;
  const before = button.textContent;
  button.setAttribute('aria-busy', 'true');
  button.setAttribute('aria-disabled', 'true');
  button.textContent = label;
  try {
    await work();
  } finally {
    button.removeAttribute('aria-busy');
    button.removeAttribute('aria-disabled');
    button.textContent = before;
  }
}
