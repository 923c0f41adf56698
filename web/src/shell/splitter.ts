/** The line between text and pages: dragged, moved by arrows, or pressed to go
 * through three widths (for those who cannot drag). */
import { el } from './dom.js';

const least = 25;
const most = 70;
const widths = [35, 50, 65];

export function createSplitter(box: HTMLElement): HTMLElement {
  let share = 42;
  const line = el('div', {
    class: 'shell-splitter', role: 'separator', tabindex: '0', 'aria-orientation': 'vertical',
    'aria-label': 'Width of the text beside the pages', 'aria-valuemin': least, 'aria-valuemax': most,
    title: 'Drag, or press, to change the width',
  });
  const set = (next: number) => {
    share = Math.round(Math.max(least, Math.min(most, next)) * 10) / 10;
    box.style.setProperty('--shell-share', `${share}%`);
    line.setAttribute('aria-valuenow', String(Math.round(share)));
    line.setAttribute('aria-valuetext', `${Math.round(share)} percent`);
  };
  set(share);
  let from: number | null = null;
  let moved = false;
  line.addEventListener('pointerdown', (event) => {
    from = event.clientX;
    moved = false;
    line.setPointerCapture(event.pointerId);
    event.preventDefault();
    line.focus();
  });
  line.addEventListener('pointermove', (event) => {
    if (from === null) return;
    moved ||= Math.abs(event.clientX - from) > 3;
    const edge = box.getBoundingClientRect();
    if (moved && edge.width > 0) set((event.clientX - edge.left) / edge.width * 100);
  });
  line.addEventListener('pointerup', () => {
    if (from !== null && !moved) set(widths.find((width) => width > share + 0.5) ?? widths[0] ?? 35);
    from = null;
  });
  line.addEventListener('pointercancel', () => { from = null; });
  line.addEventListener('keydown', (event) => {
    const next = {
      ArrowLeft: share - 3, ArrowRight: share + 3, Home: least, End: most,
      Enter: widths.find((width) => width > share + 0.5) ?? 35,
    }[event.key];
    if (next === undefined) return;
    event.preventDefault();
    set(next);
  });
  return line;
}
