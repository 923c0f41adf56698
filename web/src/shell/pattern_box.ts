/** A search box over all patterns, with its list below: for a new lesson and
 * for the form. Arrow keys move in the list while the box keeps the focus. */
import type { Engine, PatternInfo } from '../engine/types.js';
import { count, el, freshId, later } from './dom.js';
import { askedOf, search, type Found } from './pattern_search.js';

export interface PatternBox {
  readonly element: HTMLElement;
  readonly input: HTMLInputElement;
  /** Looks for what stands in the box now. */
  refresh(): void;
}

export interface PatternBoxWishes {
  label: string;
  hint?: string;
  /** Enter or a press on one. */
  choose(found: Found): void;
  /** The list is there only while it is of use (in a form). */
  folded?: boolean;
  /** A few to begin with, as buttons. */
  examples?: readonly string[];
}

export function createPatternBox(engine: Engine, wishes: PatternBoxWishes): PatternBox {
  const listId = freshId('patterns');
  const hintId = freshId('hint');
  const input = el('input', {
    type: 'text', class: 'shell-pattern-input', id: freshId('pattern'), role: 'combobox', autocomplete: 'off',
    autocapitalize: 'none', spellcheck: 'false', 'aria-autocomplete': 'list', 'aria-controls': listId,
    'aria-expanded': String(!wishes.folded), 'aria-describedby': wishes.hint !== undefined && hintId,
  });
  const list = el('ul', { id: listId, role: 'listbox', class: 'shell-patterns', 'aria-label': 'Patterns' });
  const many = el('p', { class: 'quiet', role: 'status' });
  const examples = el('p', { class: 'shell-examples' });
  for (const example of wishes.examples ?? []) {
    const press = el('button', { type: 'button', class: 'button shell-example' }, example);
    press.addEventListener('click', () => { input.value = example; input.focus(); show(); });
    examples.append(press);
  }
  if (examples.childElementCount > 0) examples.prepend('For instance ');
  const element = el('div', { class: wishes.folded ? 'shell-pattern shell-folded' : 'shell-pattern' },
    el('label', { for: input.id, class: 'shell-label' }, wishes.label),
    wishes.hint !== undefined && el('p', { id: hintId, class: 'shell-hint' }, wishes.hint),
    input, examples.childElementCount > 0 && examples, list, many);
  if (wishes.folded) list.hidden = true;

  let all: PatternInfo[] = [];
  let shown: Found[] = [];
  let at = -1;
  // What Sheaf answered for words typed before.
  const asked = new Map<string, string[]>();

  const open = (yes: boolean) => {
    if (!wishes.folded) return;
    list.hidden = !yes;
    input.setAttribute('aria-expanded', String(yes));
    if (!yes) mark(-1);
  };
  const mark = (next: number) => {
    list.children[at]?.setAttribute('aria-selected', 'false');
    at = next;
    const node = list.children[at];
    if (node) {
      node.setAttribute('aria-selected', 'true');
      node.scrollIntoView({ block: 'nearest' });
      input.setAttribute('aria-activedescendant', node.id);
    } else {
      input.removeAttribute('aria-activedescendant');
    }
  };
  const draw = () => {
    const typed = input.value;
    shown = search(all, typed, asked.get(typed.trim().toLowerCase()) ?? []);
    list.replaceChildren(...shown.map((found, i) => el('li', {
      id: `${listId}-${i}`, role: 'option', 'aria-selected': 'false', class: 'shell-pattern-one',
    },
    el('b', {}, found.title), ' ',
    el('span', { class: 'shell-pattern-family' }, found.family), ' ',
    el('span', { class: 'shell-pattern-about' }, found.about), ' ',
    found.rule !== '' && el('span', { class: 'shell-pattern-rule' }, found.rule))));
    list.scrollTop = 0;
    at = -1;
    // With words typed, Enter takes the nearest.
    mark(typed.trim() !== '' && shown.length > 0 ? 0 : -1);
    many.textContent = typed.trim() === '' ? '' : shown.length > 0 ? count(shown.length, 'pattern')
      : 'No pattern found. Try letters (oa), a sound (long a) or a family (blends).';
    many.className = shown.length > 0 || typed.trim() === '' ? 'quiet' : 'shell-hint';
  };
  const askSheaf = later(180, () => {
    const typed = input.value.trim().toLowerCase();
    if (typed === '' || asked.has(typed)) return;
    void askedOf(engine, typed, all).then((names) => {
      asked.set(typed, names);
      // A choice under way is not taken from under the teacher's hand.
      if (names.length > 0 && input.value.trim().toLowerCase() === typed && at <= 0) draw();
    });
  });
  const show = () => {
    draw();
    askSheaf();
    open(true);
  };
  const take = (found: Found | undefined) => {
    if (!found) return;
    askSheaf.cancel();
    open(false);
    wishes.choose(found);
  };

  input.addEventListener('input', show);
  if (wishes.folded) {
    input.addEventListener('focusout', () => setTimeout(() => {
      if (!element.contains(document.activeElement)) open(false);
    }, 0));
  }
  input.addEventListener('keydown', (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1, PageDown: 8, PageUp: -8 }[event.key];
    if (step !== undefined) {
      event.preventDefault();
      if (list.hidden) { show(); return; }
      if (shown.length > 0) mark(Math.max(0, Math.min(shown.length - 1, at + step)));
    } else if (event.key === 'Enter' && !list.hidden) {
      event.preventDefault();
      take(shown[at]);
    } else if (event.key === 'Escape' && wishes.folded && !list.hidden) {
      event.preventDefault();
      event.stopPropagation();
      open(false);
    }
  });
  // Before the focus leaves the box for the list.
  list.addEventListener('pointerdown', (event) => event.preventDefault());
  list.addEventListener('click', (event) => {
    const node = event.target instanceof Element ? event.target.closest('[role="option"]') : null;
    if (node) take(shown[[...list.children].indexOf(node)]);
  });

  many.className = 'shell-hint';
  many.textContent = 'The patterns are on their way…';
  void engine.patterns().then((patterns) => { all = patterns; draw(); },
    () => { many.className = 'shell-hint'; many.textContent = 'The list of patterns is not there. Please open this page again.'; });
  return { element, input, refresh: draw };
}
