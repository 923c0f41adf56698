/** Above the pages: how large, whose, and what they are. */
import type { Pages } from '../engine/types.js';
import { counted, make, makeButton, quoted, setText } from './words.js';

export type Readers = 'learner' | 'teacher' | 'both';

export interface PagesBar {
  element: HTMLElement;
  /** `scale`: 1 is as large as on paper; 0: not known. */
  size(scale: number, fits: boolean): void;
  say(pages: Pages, why: string): void;
}

interface Wishes {
  /** By how much larger; 0: as wide as the column. */
  zoom(by: number): void;
  show(readers: Readers): void;
  skip(): void;
}

const kStep = 1.2;
/** Milliseconds before faults are said. */
const kPatience = 700;
const kReaders: readonly [Readers, string][] =
  [['learner', 'Learner'], ['teacher', 'Teacher'], ['both', 'Both']];

export function createPagesBar(wishes: Wishes): PagesBar {
  const element = make('div', 'pg-bar');
  const status = make('p', 'pg-status');
  status.setAttribute('role', 'status');

  const whose = make('fieldset', 'pg-whose');
  whose.append(make('legend', 'quiet', 'Whose pages'));
  for (const [readers, name] of kReaders) {
    const label = make('label', 'pg-choice');
    const radio = make('input');
    radio.type = 'radio';
    radio.name = 'pg-whose';
    radio.value = readers;
    radio.checked = readers === 'learner';
    radio.addEventListener('change', () => { if (radio.checked) wishes.show(readers); });
    label.append(radio, name);
    whose.append(label);
  }

  const sizes = make('div', 'pg-sizes');
  sizes.setAttribute('role', 'group');
  sizes.setAttribute('aria-label', 'Size of the pages');
  const smaller = makeButton('−', 'pg-tool', () => wishes.zoom(1 / kStep));
  smaller.setAttribute('aria-label', 'Smaller');
  const larger = makeButton('+', 'pg-tool', () => wishes.zoom(kStep));
  larger.setAttribute('aria-label', 'Larger');
  const shown = make('output', 'pg-size');
  const fit = makeButton('Fit', 'pg-tool', () => wishes.zoom(0));
  fit.setAttribute('aria-label', 'Fit to the width');
  sizes.append(smaller, shown, larger, fit);

  const skip = makeButton('Past the pages to the messages', 'pg-skip', () => wishes.skip());
  element.append(whose, sizes, skip, status);

  let said = '';
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const show = (text: string, faulty: boolean): void => {
    said = text;
    status.classList.toggle('pg-faulty', faulty);
    status.replaceChildren(quoted(text));
  };
  return {
    element,
    size(scale, fits) {
      setText(shown, scale === 0 ? '' : `${Math.round(scale * 100)} %`);
      fit.setAttribute('aria-pressed', String(fits));
    },
    say(pages, why) {
      const own = pages.pages.filter((page) => !page.teacher).length;
      const others = pages.pages.length - own;
      const some = pages.pages.length > 0;
      const text = some && pages.stale ? `These are the last good pages: ${pages.why}`
        : some ? `${counted(own, 'page', 'pages')} for the learner, ${others} for the teacher`
        : why !== '' ? `There are no pages yet: ${why}` : '';
      clearTimeout(waiting);
      // Said again only where it is something else.
      if (text === said) return;
      const faulty = text !== '' && (pages.stale || !some);
      // A word half written is no fault yet.
      if (faulty) waiting = setTimeout(() => show(text, true), kPatience);
      else show(text, false);
    },
  };
}
