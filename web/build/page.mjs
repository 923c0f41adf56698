// The page around the program: src/index.html with the rules on what may be
// loaded, the style and the scripts put in.

import { createHash } from 'node:crypto';

export const hashOf = (bytes) =>
  `sha256-${createHash('sha256').update(bytes).digest('base64')}`;

/** What both kinds of page may do. Nothing comes from elsewhere, no form is sent,
 * nothing is shown in a frame but a PDF that the page itself has made. CodeMirror
 * writes its own style elements, so these are let in. */
function policy({ scripts, connect, own }) {
  return [
    "default-src 'none'",
    `script-src ${scripts} 'wasm-unsafe-eval'`,
    `style-src ${own ? "'self' " : ''}'unsafe-inline'`,
    `img-src ${own ? "'self' " : ''}blob: data:`,
    `connect-src ${connect}`,
    `worker-src ${own ? "'self' " : ''}blob:`,
    ...(own ? ["manifest-src 'self'"] : []),
    'frame-src blob:',
    "form-action 'none'",
    "base-uri 'none'",
  ].join('; ');
}

function putAfter(page, mark, text) {
  const at = page.search(mark);
  if (at < 0) throw new Error(`src/index.html has no ${mark}`);
  const end = at + page.slice(at).match(mark)[0].length;
  return page.slice(0, end) + text + page.slice(end);
}
function putBefore(page, mark, text) {
  const at = page.lastIndexOf(mark);
  if (at < 0) throw new Error(`src/index.html has no ${mark}`);
  return page.slice(0, at) + text + page.slice(at);
}

/** The policy stands before all that it is about. */
function withHead(page, rules, head) {
  return putAfter(page, /<meta charset="utf-8">/i,
    `\n<meta http-equiv="Content-Security-Policy" content="${rules}">\n` +
    '<meta name="referrer" content="no-referrer">\n' + head);
}

const partsElement = (places) =>
  `<script type="application/json" id="sheaf-parts">${JSON.stringify(places)}</script>\n`;

/** Text that would end the element it is put into, or change how it is read. */
function checkInside(text, what) {
  if (/<\/(script|style)|<!--|<script/i.test(text)) {
    throw new Error(`${what} cannot stand inside a page as it is`);
  }
  return text;
}

/** In the page itself: a browser asks for a file again whenever the address
 * changes, and a page that works asks for nothing. */
const iconLink = (icon) =>
  `<link rel="icon" href="data:image/svg+xml;base64,${icon.toString('base64')}">`;

/** files: { 'app.js': Buffer, 'style.css': Buffer, 'icon.svg': Buffer } */
export function servedPage(page, files, places) {
  const rules = policy({ scripts: "'self'", connect: "'self'", own: true });
  const head =
    `<link rel="stylesheet" href="style.css" integrity="${hashOf(files['style.css'])}">\n` +
    '<link rel="manifest" href="sheaf.webmanifest">\n' +
    iconLink(files['icon.svg']);
  return putBefore(withHead(page, rules, head), '</body>',
    partsElement(places) +
    `<script src="app.js" integrity="${hashOf(files['app.js'])}"></script>\n`);
}

/** Bytes in one element, of three, so that only the last piece ends in '=': a
 * megabyte of text. Browsers hold the text of an element several times over, and
 * Firefox gives back what was that large as soon as it is free, but keeps what was
 * smaller. */
const pieceSize = 3 << 18;
const takePiece = 'sheafTaker.take()';

/** parts: { module: Buffer, … }, gzip; each becomes elements of base64, which are
 * taken apart while the page is read (src/engine/taker.ts). */
export function singlePage(page, { app, taker, style, icon }, parts, version) {
  const takes = checkInside(taker, 'What takes the parts');
  const code = checkInside(app, 'The program');
  const scripts = [takes, takePiece, code].map((text) => `'${hashOf(text)}'`).join(' ');
  const rules = policy({ scripts, connect: "'none'", own: false });
  const head =
    `${iconLink(icon)}\n` +
    `<style>${checkInside(style, 'The style')}</style>`;
  const places = { version, single: true, parts: {} };
  let elements = '';
  for (const [name, bytes] of Object.entries(parts)) {
    places.parts[name] = { size: bytes.length };
    for (let at = 0; at < bytes.length; at += pieceSize) {
      elements += `<script type="application/octet-stream" data-part="${name}">` +
        `${bytes.subarray(at, at + pieceSize).toString('base64')}</script>` +
        `<script>${takePiece}</script>\n`;
    }
  }
  return putBefore(withHead(page, rules, head), '</body>', partsElement(places) +
    `<script>${takes}</script>\n${elements}<script>${code}</script>\n`);
}
