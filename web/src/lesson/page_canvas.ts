/** One page of a packet on the screen. */
import { paint } from '../engine/pixels.js';
import type { PageInfo, Picture, Sight } from '../engine/types.js';
import { make, makeButton } from './words.js';

/** Sharper than paper needs to be read on a screen, and still quick to draw. */
const kMostDpi = 220;
const kLeastDpi = 30;

/** The dots an inch that fill `width` CSS pixels sharply. */
export function dpiFor(page: PageInfo, width: number, ratio: number): number {
  const dpi = Math.round(width * ratio / (page.width / 72));
  return Math.max(kLeastDpi, Math.min(kMostDpi, dpi));
}

/** A page's name as a heading: "sound-boxes 2" is "Sound boxes 2". */
export function labelOf(page: PageInfo): string {
  const words = page.label.replace(/(?<=\p{L})-(?=\p{L})/gu, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export class PageCanvas {
  readonly figure = make('figure', 'pg-page');
  readonly canvas = make('canvas', 'pg-canvas');
  readonly lines: HTMLButtonElement;
  /** Its number in the packet, from 0, which is how the engine counts. */
  number = -1;
  page: PageInfo | null = null;
  /** It shows the line that the cursor is in. */
  framed = false;
  readonly #caption = make('span', 'pg-caption');
  #width = 0;
  /** What the canvas shows; '': nothing. */
  #drawn = '';
  #dpi = 0;

  constructor(click: (page: PageCanvas, x: number, y: number) => void,
              lines: (page: PageCanvas) => void) {
    this.canvas.setAttribute('role', 'img');
    this.canvas.width = this.canvas.height = 1;
    this.lines = makeButton('Show its lines', 'pg-lines', () => lines(this));
    const foot = make('figcaption', 'pg-foot');
    foot.append(this.#caption, this.lines);
    this.figure.append(this.canvas, foot);
    this.canvas.addEventListener('click', (event) => {
      const box = this.canvas.getBoundingClientRect();
      if (!this.page || box.width === 0 || box.height === 0) return;
      click(this, (event.clientX - box.left) / box.width * this.page.width,
            (event.clientY - box.top) / box.height * this.page.height);
    });
  }

  /** `count`: its number among the pages of its reader, from 1. */
  show(page: PageInfo, number: number, count: number): void {
    this.page = page;
    this.number = number;
    const label = labelOf(page);
    const name = `Page ${count}, ${label}, for the ${page.teacher ? 'teacher' : 'learner'}`;
    if (this.canvas.getAttribute('aria-label') !== name) {
      this.canvas.setAttribute('aria-label', name);
      this.#caption.textContent = `${count} · ${label}`;
      this.lines.setAttribute('aria-label', `Show its lines: page ${count}, ${label}`);
    }
    const shape = `${page.width} / ${page.height}`;
    if (this.canvas.style.aspectRatio !== shape) this.canvas.style.aspectRatio = shape;
  }

  /** CSS pixels. */
  resize(width: number): void {
    if (width === this.#width) return;
    this.#width = width;
    this.figure.style.width = `${width}px`;
  }

  frame(here: boolean): void {
    this.framed = here;
    this.figure.classList.toggle('pg-here', here);
    if (here) this.figure.setAttribute('aria-current', 'true');
    else this.figure.removeAttribute('aria-current');
  }

  /** The dots an inch to draw it with; 0: what is there is right. */
  wanted(ratio: number): number {
    if (!this.page || this.#width === 0) return 0;
    const dpi = dpiFor(this.page, this.#width, ratio);
    return this.#drawn === this.page.look && this.#dpi === dpi ? 0 : dpi;
  }

  /** As the engine is asked for another look of it; null: it has no place yet. */
  sight(ratio: number): Sight | null {
    if (!this.page || this.#width === 0) return null;
    return { page: this.number, dpi: dpiFor(this.page, this.#width, ratio), look: this.#drawn };
  }

  /** Puts a picture there, if it is still that page's. */
  put(look: string, dpi: number, picture: Picture): boolean {
    if (this.page?.look !== look) return false;
    const pen = this.canvas.getContext('2d');
    if (!pen) return false;
    if (this.canvas.width !== picture.width) this.canvas.width = picture.width;
    if (this.canvas.height !== picture.height) this.canvas.height = picture.height;
    paint(pen, picture);
    this.#drawn = look;
    this.#dpi = dpi;
    return true;
  }

  /** Far out of sight a picture only takes up room. */
  release(): void {
    if (this.#drawn === '') return;
    this.canvas.width = this.canvas.height = 1;
    this.#drawn = '';
    this.#dpi = 0;
  }
}
