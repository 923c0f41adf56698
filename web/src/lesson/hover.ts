/** What Sheaf knows of the word, key or pattern at a place. */
import type { Extension } from '@codemirror/state';
import { hoverTooltip } from '@codemirror/view';
import type { HoverInfo } from '../engine/types.js';
import type { LessonSession } from './session.js';
import type { Engine } from '../engine/types.js';
import { make, quoted } from './words.js';

/** The first line is the thing itself. */
export function aboutNode(info: HoverInfo): HTMLElement {
  const box = make('div', 'ed-about');
  info.lines.forEach((line, index) => {
    const row = make('p', index === 0 ? 'ed-about-first' : '');
    row.append(quoted(line));
    box.append(row);
  });
  return box;
}

export async function aboutPlace(engine: Engine, session: LessonSession,
                                 at: number): Promise<HoverInfo | null> {
  session.push();
  const version = session.version;
  const info = await engine.hover(session.path, at).catch(() => null);
  return version === session.version ? info : null;
}

export function hovers(engine: Engine, session: LessonSession): Extension {
  return hoverTooltip(async (view, at) => {
    const info = await aboutPlace(engine, session, at);
    if (!info || info.lines.length === 0 || info.range.to > view.state.doc.length) return null;
    return {
      pos: info.range.from,
      end: info.range.to,
      above: true,
      create: () => ({ dom: aboutNode(info) }),
    };
  }, { hideOnChange: true });
}
