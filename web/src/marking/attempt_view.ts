/** One attempt, grapheme by grapheme. */
import { el } from '../shell/dom.js';
import { kResultHelp, kSigns, type Attempt, type Result } from './attempts.js';

export function attemptView(attempt: Attempt): HTMLElement {
  const parts = el('ul', { class: 'marking-graphemes', 'aria-label': `${attempt.written || 'nothing'} for ${attempt.target}` });
  for (const { grapheme, result } of attempt.graphemes) {
    parts.append(el('li', { class: `marking-grapheme marking-${result}` },
      el('span', { class: 'marking-letters' }, grapheme),
      el('span', { class: 'marking-result' }, el('span', { 'aria-hidden': 'true' }, `${kSigns[result]} `), result)));
  }
  const node = el('div', { class: 'marking-attempt' }, parts);
  const said = [attempt.what, `letter sequences ${attempt.sequences} of ${attempt.possible}`]
    .filter(part => part !== '').join('; ');
  node.append(el('p', { class: 'marking-what' }, attempt.right ? `Right; ${said}.` : `${said}.`));
  return node;
}

/** What the signs mean; it stands once, below the table. */
export function legend(): HTMLElement {
  const all = el('dl', { class: 'marking-legend' });
  for (const result of Object.keys(kSigns) as Result[]) {
    all.append(el('div', {}, el('dt', {}, el('span', { 'aria-hidden': 'true' }, `${kSigns[result]} `), result),
      el('dd', {}, kResultHelp[result])));
  }
  return all;
}

/** For a screen reader, in one sentence. */
export function spoken(attempt: Attempt): string {
  const parts = attempt.graphemes.map(({ grapheme, result }) => `${grapheme} ${result}`).join(', ');
  return `${attempt.written} for ${attempt.target}: ${attempt.right ? 'right' : parts}.`;
}
