/** "At this place": what is known of the place of the cursor, and all that can
 * be done there, one click or Enter each. */
import type { EditorView } from '@codemirror/view';
import type { App } from '../contract.js';
import type { Action, HoverInfo } from '../engine/types.js';
import { aboutNode, aboutPlace } from './hover.js';
import { mend } from './mend.js';
import type { LessonSession } from './session.js';
import { make, makeButton } from './words.js';

export interface Deeds { open(): Promise<void>; close(): void }

/** Mends come first, then the rest, in the engine's order. */
export function orderedActions(actions: readonly Action[]): Action[] {
  return [...actions.filter((action) => action.message >= 0),
          ...actions.filter((action) => action.message < 0)];
}

/** What can be done at the cursor, and the mends of the rest of its line. */
export function together(here: readonly Action[], line: readonly Action[]): Action[] {
  const more = line.filter((action) => action.message >= 0
    && !here.some((one) => one.title === action.title));
  return [...orderedActions(here), ...more];
}

export function createDeeds(host: HTMLElement, view: EditorView, app: App,
                            session: LessonSession): Deeds {
  const panel = make('div', 'ed-deeds');
  panel.hidden = true;
  panel.tabIndex = -1;
  panel.setAttribute('role', 'dialog');
  panel.setAttribute('aria-label', 'At this place');
  host.append(panel);
  let asked = 0;

  const close = (): void => {
    if (panel.hidden) return;
    const within = panel.contains(document.activeElement);
    panel.hidden = true;
    panel.replaceChildren();
    if (within) view.focus();
  };

  // Below the cursor where there is room, else above; never beyond the window.
  const place = (): void => {
    const at = view.coordsAtPos(view.state.selection.main.head) ?? host.getBoundingClientRect();
    const size = panel.getBoundingClientRect();
    const left = Math.min(at.left, window.innerWidth - size.width - 4);
    const below = at.bottom + 4;
    const top = below + size.height <= window.innerHeight ? below : at.top - size.height - 4;
    panel.style.left = `${Math.max(4, left)}px`;
    panel.style.top = `${Math.max(4, Math.min(top, window.innerHeight - size.height - 4))}px`;
  };

  const show = (about: HoverInfo | null, actions: readonly Action[]): void => {
    panel.replaceChildren();
    if (about && about.lines.length > 0) panel.append(aboutNode(about));
    const list = make('ul', 'ed-deeds-list');
    for (const action of actions) {
      const item = make('li');
      item.append(makeButton(action.title, 'ed-deed', () => {
        close();
        void mend(app, action.title, action.files);
      }));
      list.append(item);
    }
    if (actions.length > 0) panel.append(list);
    else panel.append(make('p', 'ed-deeds-none', 'There is nothing to change here.'));
    panel.append(makeButton('Close', 'ed-deeds-close', close));
    panel.hidden = false;
    place();
    panel.querySelector('button')?.focus();
  };

  panel.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') {
      event.preventDefault();
      event.stopPropagation();
      close();
    }
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
    event.preventDefault();
    const all = [...panel.querySelectorAll('button')];
    const now = all.indexOf(document.activeElement as HTMLButtonElement);
    const next = now + (event.key === 'ArrowDown' ? 1 : -1);
    all[(next + all.length) % all.length]?.focus();
  });
  panel.addEventListener('focusout', (event) => {
    if (event.relatedTarget instanceof Node && panel.contains(event.relatedTarget)) return;
    // A click beside it, or Tab past its end.
    if (document.hasFocus()) {
      panel.hidden = true;
      panel.replaceChildren();
    }
  });
  session.addEventListener('text', close);
  session.addEventListener('opened', close);

  return {
    close,
    async open() {
      asked += 1;
      const mine = asked;
      const { from, to, head } = view.state.selection.main;
      const about = aboutPlace(app.engine, session, head);
      const version = session.version;
      const first = view.state.doc.lineAt(from);
      const [here, line] = await Promise.all([[from, to], [first.from, first.to]].map(
        ([begin = 0, end = 0]) => app.engine.actions(session.path, begin, end)
          .catch((): Action[] => [])));
      const known = await about;
      if (mine === asked && version === session.version) show(known, together(here ?? [], line ?? []));
    },
  };
}
