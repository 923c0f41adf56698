// The page itself: what the browser reads once.

#include "live/view.h"

namespace sheaf {

std::string_view page_html() {
  return R"html(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Pages</title>
<link rel="stylesheet" href="page.css">
</head>
<body>
<header>
  <h1 id="file">Pages</h1>
  <p id="status" role="status"></p>
  <label>Size <input id="size" type="range" min="30" max="160" value="56"></label>
  <label><input id="teacher" type="checkbox"> teacher's pages</label>
</header>
<main>
  <section id="pages" aria-label="Pages"></section>
  <aside aria-label="Messages">
    <p id="place" role="status">Click on a page to see which line makes it.</p>
    <h2>Messages</h2>
    <ol id="messages"></ol>
  </aside>
</main>
<script src="page.js"></script>
</body>
</html>
)html";
}

std::string_view page_css() {
  return R"css(:root { color-scheme: light; --ink: #1c2430; --line: #5b6675;
  --ground: #e9e6df; --paper: #fffdf8; --mark: #8a3b12; }
* { box-sizing: border-box; }
body { margin: 0; font: 16px/1.5 system-ui, sans-serif; color: var(--ink);
  background: var(--ground); }
header { position: sticky; top: 0; z-index: 1; display: flex; flex-wrap: wrap;
  gap: 0.25rem 1.5rem; align-items: center; padding: 0.5rem 1.25rem;
  background: var(--paper); border-bottom: 2px solid var(--ink); }
h1 { font-size: 1.1rem; margin: 0; }
h2 { font-size: 1rem; margin: 1rem 0 0.25rem; }
#status { margin: 0; flex: 1 1 12rem; }
#status.stale { color: var(--mark); font-weight: 600; }
main { display: grid; grid-template-columns: minmax(0, 1fr) 22rem; }
#pages { display: flex; flex-wrap: wrap; gap: 1.25rem; padding: 1.25rem;
  align-content: flex-start; justify-content: center; }
figure { margin: 0; }
figure img { display: block; background: #fff; border: 1px solid var(--line);
  cursor: crosshair; }
figure.here img { outline: 4px solid var(--mark); outline-offset: 2px; }
.stale-pages img { opacity: 0.55; }
figcaption { font-size: 0.85rem; padding-top: 0.25rem; }
aside { position: sticky; top: 3.2rem; align-self: start; overflow: auto;
  max-height: calc(100vh - 3.2rem); padding: 0.75rem 1.25rem 2rem;
  background: var(--paper); border-left: 1px solid var(--line);
  min-height: calc(100vh - 3.2rem); }
#messages { margin: 0; padding: 0; list-style: none; }
#messages li { padding: 0.5rem 0; border-bottom: 1px solid #d5d0c5;
  overflow-wrap: anywhere; }
#messages b { display: block; font-size: 0.85rem; }
#messages .error b { color: var(--mark); }
#messages small { display: block; font-size: 0.9rem; }
#place { margin: 0; overflow-wrap: anywhere; }
code { font-family: ui-monospace, monospace; font-size: 0.95em; }
:focus-visible { outline: 3px solid var(--mark); outline-offset: 2px; }
@media (max-width: 60rem) { main { grid-template-columns: 1fr; }
  aside { position: static; min-height: 0; max-height: none;
    border-left: 0; border-top: 1px solid var(--line); } }
@media (prefers-reduced-motion: no-preference) { html { scroll-behavior: smooth; } }
)css";
}

std::string_view page_js() {
  return R"js('use strict';
const find = (id) => document.getElementById(id);
const kinds = { error: 'To be mended', warning: 'Worth a look', note: 'Note' };
let state = null, number = 0, cursorLine = 0;

const text = (parent, tag, words, name) => {
  const one = document.createElement(tag);
  if (name) one.className = name;
  one.textContent = words;
  parent.append(one);
  return one;
};
// Words between backticks stand in the file.
const quoted = (parent, words) => words.split('`').forEach((part, i) => {
  if (i % 2) text(parent, 'code', part);
  else parent.append(part);
});
// The points of the paper at the size chosen.
const scale = () => find('size').value / 100 * 96 / 72;
const dpi = () => Math.min(300, Math.max(20,
    Math.round(72 * scale() * window.devicePixelRatio)));

const showPlace = async (event, page) => {
  const box = event.currentTarget.getBoundingClientRect();
  const x = (event.clientX - box.left) / scale();
  const y = (event.clientY - box.top) / scale();
  const answer = await fetch(`place?page=${page}&x=${x}&y=${y}`);
  const place = await answer.json();
  const shown = find('place');
  shown.textContent = '';
  if (!place) {
    shown.textContent = 'No line makes this: it stands on every such page.';
    return;
  }
  text(shown, 'b', `${place.file}, line ${place.line}, column ${place.column}`);
  text(shown, 'br', '');
  text(shown, 'code', place.text.trim());
};

const drawPages = () => {
  const pages = find('pages');
  pages.className = state.stale ? 'stale-pages' : '';
  const wanted = state.pages.map((page, i) => [page, i])
      .filter(([page]) => find('teacher').checked || !page.teacher);
  while (pages.children.length > wanted.length) pages.lastChild.remove();
  wanted.forEach(([page, i], at) => {
    let figure = pages.children[at];
    if (!figure) {
      figure = document.createElement('figure');
      figure.append(document.createElement('img'));
      text(figure, 'figcaption', '');
      pages.append(figure);
    }
    const image = figure.firstChild;
    const source = `image?page=${i}&dpi=${dpi()}&look=${page.look}`;
    image.loading = 'lazy';
    if (image.getAttribute('src') !== source) image.src = source;
    image.width = Math.round(page.width * scale());
    image.height = Math.round(page.height * scale());
    image.alt = `Page ${i + 1}, ${page.label}`;
    image.onclick = (event) => showPlace(event, i);
    figure.lastChild.textContent = `${i + 1} · ${page.label}`;
    const here = state.cursor && state.cursor.pages.includes(i);
    figure.className = here ? 'here' : '';
  });
};

const draw = () => {
  document.title = state.file;
  find('file').textContent = state.file;
  const status = find('status');
  status.textContent = '';
  status.className = state.stale || !state.pages.length ? 'stale' : '';
  if (state.stale) {
    quoted(status, `These are the last good pages: ${state.why}`);
  } else if (!state.pages.length) {
    quoted(status, `There are no pages yet: ${state.why}`);
  } else {
    const count = state.pages.filter((page) => !page.teacher).length;
    status.textContent = `${count} pages for the learner`;
  }
  const list = find('messages');
  list.textContent = '';
  for (const message of state.messages) {
    const item = text(list, 'li', '', message.severity);
    const place = message.line ? `, line ${message.line}` : '';
    text(item, 'b', kinds[message.severity] + place);
    quoted(item, message.text);
    if (message.help) quoted(text(item, 'small', ''), message.help);
  }
  if (!state.messages.length) text(list, 'li', 'Nothing to be said.');
  drawPages();
  // The page that the editor is at comes into sight.
  if (state.cursor && state.cursor.line !== cursorLine) {
    cursorLine = state.cursor.line;
    const here = document.querySelector('figure.here');
    if (here) here.scrollIntoView({ block: 'nearest' });
  }
};

const follow = async () => {
  for (;;) {
    try {
      const answer = await fetch(`state?after=${number}`);
      if (!answer.ok) throw new Error(answer.statusText);
      state = await answer.json();
      number = state.number;
      draw();
    } catch (gone) {
      find('status').className = 'stale';
      find('status').textContent =
          'Sheaf has ended or is asleep; these pages stay as they were.';
      await new Promise((resolve) => setTimeout(resolve, 1500));
    }
  }
};
find('size').oninput = () => state && drawPages();
find('teacher').onchange = () => state && drawPages();
follow();
)js";
}

}  // namespace sheaf
