/** Making nodes without ever reading data as markup. */

export type Child = Node | string | null | undefined | false;
type Attribute = string | number | boolean | null | undefined;

/** An element: attributes as in HTML; `true` is an empty attribute, `false`,
 * null and undefined are none. Strings become text. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K, attributes: Readonly<Record<string, Attribute>> = {}, ...children: Child[]
): HTMLElementTagNameMap[K] {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    node.setAttribute(name, value === true ? '' : String(value));
  }
  for (const child of children) {
    if (child) node.append(child);
  }
  return node;
}

export function button(label: string, press: (event: MouseEvent) => void, kind = ''): HTMLButtonElement {
  const node = el('button', { type: 'button', class: `button ${kind}`.trim() }, label);
  node.addEventListener('click', press);
  return node;
}

/** Words between backticks stand in the teacher's file. */
export function quoted(words: string): Node {
  const nodes = document.createDocumentFragment();
  words.split('`').forEach((part, i) => {
    if (part !== '') nodes.append(i % 2 === 1 ? el('code', {}, part) : part);
  });
  return nodes;
}

/** A name no other element has, for labels. */
let names = 0;
export function freshId(stem: string): string {
  names += 1;
  return `${stem}-${names}`;
}

/** Calls it once things have been quiet for so many milliseconds. */
export function later(wait: number, call: () => void): { (): void; now(): void; cancel(): void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const ask = () => {
    clearTimeout(timer);
    timer = setTimeout(() => { timer = undefined; call(); }, wait);
  };
  return Object.assign(ask, {
    now() {
      if (timer === undefined) return;
      clearTimeout(timer);
      timer = undefined;
      call();
    },
    cancel() { clearTimeout(timer); timer = undefined; },
  });
}

/** "1 page", "3 pages". */
export function count(many: number, one: string, more = `${one}s`): string {
  return `${many} ${many === 1 ? one : more}`;
}

export function inWords(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
