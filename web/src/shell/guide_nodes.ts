/** A page of the guide as nodes of this page: only what is on the list below,
 * its links led to other pages of the guide. */

/** Elements that come over, with the attributes they keep. */
const kept: Readonly<Record<string, readonly string[]>> = {
  h1: [], h2: [], h3: [], h4: [], p: [], ul: [], ol: ['start'], li: [], dl: [], dt: [], dd: [], pre: [], code: [],
  em: [], strong: [], b: [], i: [], kbd: [], blockquote: [], hr: [], br: [], table: [], caption: [], thead: [], tbody: [],
  tr: [], th: ['scope', 'colspan', 'rowspan'], td: ['colspan', 'rowspan'], a: ['href', 'aria-current'], img: ['alt', 'width', 'height'],
  figure: [], figcaption: [], section: [], article: [], nav: ['aria-label'], div: [], span: [], main: [], header: [], footer: [],
  details: ['open'], summary: [],
};
/** Left out with all that is in them. */
const dropped = new Set(['script', 'style', 'template', 'iframe', 'object', 'embed', 'form', 'input', 'button', 'link', 'meta', 'base', 'svg', 'math', 'head', 'title']);
/** Names that would clash with the page's own landmarks. */
const renamed: Readonly<Record<string, string>> = { main: 'div', header: 'div', footer: 'div', article: 'div' };

export interface GuideLinks {
  /** Of the page that is shown: "lessons/first.html". */
  page: string;
  /** An address for a picture; null where there is none. */
  picture(path: string): string | null;
  /** Whether the guide has this page. */
  has(path: string): boolean;
}

/** "lessons/first.html" + "../a.html#b" → "a.html" and "b"; null: leads elsewhere. */
export function resolved(page: string, link: string): { path: string; part: string } | null {
  if (/^[a-z][a-z0-9+.-]*:|^\/\//i.test(link)) return null;
  const [where = '', part = ''] = link.split('#');
  if (where === '') return { path: page, part };
  const parts = page.split('/').slice(0, -1);
  for (const piece of where.replace(/[?].*$/, '').split('/')) {
    if (piece === '..') parts.pop();
    else if (piece !== '.' && piece !== '') parts.push(piece);
  }
  let path = decodeURIComponent(parts.join('/'));
  if (where.endsWith('/')) path += `${path === '' ? '' : '/'}index.html`;
  return { path, part };
}

export function guideId(part: string): string {
  return `guide-part-${part}`;
}

function copyInto(parent: Node, from: Node, links: GuideLinks): void {
  for (const child of from.childNodes) {
    if (child.nodeType === Node.TEXT_NODE) {
      parent.appendChild(document.createTextNode(child.textContent ?? ''));
      continue;
    }
    if (!(child instanceof Element)) continue;
    const tag = child.localName;
    if (dropped.has(tag)) continue;
    const attributes = kept[tag];
    if (!attributes) { copyInto(parent, child, links); continue; }
    const node = document.createElement(renamed[tag] ?? tag);
    for (const name of attributes) {
      const value = child.getAttribute(name);
      if (value !== null && name !== 'href') node.setAttribute(name, value);
    }
    if (child.id !== '') { node.id = guideId(child.id); node.tabIndex = -1; }
    if (tag === 'a') {
      const target = resolved(links.page, child.getAttribute('href') ?? '');
      if (target && links.has(target.path)) {
        node.setAttribute('href', `#guide/${target.path}${target.part !== '' ? `#${target.part}` : ''}`);
      }
      // One that leads out of the guide stays as words: no request is made here.
    }
    if (tag === 'img') {
      const target = resolved(links.page, child.getAttribute('src') ?? '');
      const address = target && links.picture(target.path);
      if (address) {
        node.setAttribute('src', address);
        node.setAttribute('loading', 'lazy');
      } else {
        parent.appendChild(document.createTextNode(child.getAttribute('alt') ?? ''));
        continue;
      }
    }
    copyInto(node, child, links);
    // Wide tables scroll by themselves, and not the page with them.
    if (tag === 'table' || tag === 'pre') {
      const box = document.createElement('div');
      box.className = 'shell-guide-wide';
      box.tabIndex = 0;
      box.setAttribute('role', 'group');
      box.setAttribute('aria-label', tag === 'table' ? 'A table' : 'An example');
      box.append(node);
      parent.appendChild(box);
    } else {
      parent.appendChild(node);
    }
  }
}

export function guideNodes(html: string, links: GuideLinks): { title: string; nodes: DocumentFragment } {
  const read = new DOMParser().parseFromString(html, 'text/html');
  const nodes = document.createDocumentFragment();
  const main = read.querySelector('main');
  if (!main) copyInto(nodes, read.body, links);
  else {
    // The chapters before the text and the way onwards behind it.
    for (const part of read.body.children) {
      if (part !== main && part.localName !== 'nav') continue;
      // Of the document that was read, where no picture asks for its file.
      const holder = read.createElement('div');
      holder.append(part.cloneNode(true));
      copyInto(nodes, holder, links);
    }
  }
  return { title: read.title, nodes };
}
