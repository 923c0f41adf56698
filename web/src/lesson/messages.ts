/** Below: what Sheaf has to say of the lesson, in words, with its mends. */
import type { App, Part } from '../contract.js';
import type { Message } from '../engine/types.js';
import { explain } from './explaining.js';
import { mend } from './mend.js';
import { lessonSession } from './session.js';
import { certainMends, countWords, inOrder, make, makeButton, quoted, setHidden,
         setText, severitySigns, severityWords, where } from './words.js';

/** The cursor rests for so long (ms); room above what comes into sight (px). */
const kRest = 200;
const kRoom = 6;

/** What is shown of a message: the same, and its row can stay. */
function signature(message: Message, path: string): string {
  return JSON.stringify([message.severity, message.name, message.text, message.help,
    where(message, path), message.remarks.map((remark) => [remark.line, remark.text]),
    message.fixes.map((fix) => fix.label)]);
}

/** `index`: of its message among the session's. */
interface Row { item: HTMLElement; signature: string; message: Message; index: number }

function createRow(app: App, message: Message): Row {
  const row: Row = {
    item: make('li', `ms-item ms-${message.severity}`),
    signature: signature(message, app.session.path), message,
    index: -1,
  };
  const { path } = app.session;
  const head = make('p', 'ms-head');
  const sign = make('span', 'ms-sign', severitySigns[message.severity]);
  sign.setAttribute('aria-hidden', 'true');
  head.append(sign, make('b', 'ms-kind', severityWords[message.severity]));
  const place = where(message, path);
  if (place !== '' && message.path === path && message.range) {
    const go = makeButton(place, 'ms-place', () => {
      if (row.message.range) app.session.goTo(row.message.range);
    });
    go.setAttribute('aria-label', `Go to ${place}`);
    head.append(go);
  } else if (place !== '') {
    head.append(make('span', '', place));
  }
  const text = make('p', 'ms-text');
  text.append(quoted(message.text));
  row.item.append(head, text);
  if (message.help !== '') {
    const help = make('p', 'ms-help');
    help.append(quoted(message.help));
    row.item.append(help);
  }
  for (const remark of message.remarks) {
    const line = make('p', 'ms-help');
    if (remark.line !== null) line.append(`Line ${remark.line}: `);
    line.append(quoted(remark.text));
    row.item.append(line);
  }
  const deeds = make('div', 'ms-deeds');
  for (const fix of message.fixes) {
    // The text may have changed since: then the mend is the one of that name now.
    deeds.append(makeButton(fix.label, 'button ms-mend', () => {
      const now = row.message.fixes.find((one) => one.label === fix.label);
      if (now) void mend(app, now.label, now.files);
    }));
  }
  deeds.append(makeButton('What does this mean?', 'ms-why', () => {
    void explain(app, message.name);
  }));
  row.item.append(deeds);
  return row;
}

export const createMessages: Part = (parent: HTMLElement, app: App): void => {
  const session = lessonSession(app.session);
  const root = make('div', 'ms');
  const bar = make('div', 'ms-bar');
  const title = make('h2', 'ms-title', 'Messages');
  title.tabIndex = -1;
  const count = make('p', 'ms-count');
  count.setAttribute('role', 'status');
  const all = makeButton('', 'button ms-all', () => {
    const { files, count: number } = certainMends(session.messages);
    void mend(app, number === 1 ? 'One place is mended.' : `${number} places are mended.`, files);
  });
  bar.append(title, count, all);
  const list = make('ol', 'ms-list');
  const none = make('p', 'ms-none', 'Nothing to mend. The lesson is ready to print.');
  root.append(bar, none, list);
  parent.append(root);
  let rows: Row[] = [];

  const draw = (): void => {
    const messages = inOrder(session.messages, session.path);
    const left = [...rows];
    const focused = rows.findIndex((row) => row.item.contains(document.activeElement));
    const allHeld = document.activeElement === all;
    rows = messages.map((message) => {
      const mark = signature(message, session.path);
      const at = left.findIndex((row) => row.signature === mark);
      const [row] = at < 0 ? [] : left.splice(at, 1);
      const now = row ?? createRow(app, message);
      now.message = message;
      now.index = session.messages.indexOf(message);
      return now;
    });
    for (const row of left) row.item.remove();
    rows.forEach((row, index) => {
      const there = list.children[index];
      if (there !== row.item) list.insertBefore(row.item, there ?? null);
    });
    setHidden(none, rows.length > 0 || session.pages.pages.length === 0);
    const { count: certain } = certainMends(messages);
    setHidden(all, certain < 2);
    setText(all, `Mend all that is certain (${certain})`);
    // A mend takes its own button away: the focus goes on to what is next.
    const lost = focused >= 0 && !list.contains(document.activeElement);
    if (lost || (allHeld && all.hidden)) {
      const next = rows[Math.min(Math.max(focused, 0), rows.length - 1)];
      (next?.item.querySelector<HTMLElement>('.ms-mend, button') ?? title).focus({ preventScroll: true });
    }
  };

  // Counts are said when typing rests, so that nobody hears each letter's.
  let resting: ReturnType<typeof setTimeout> | undefined;
  const say = (): void => {
    clearTimeout(resting);
    resting = setTimeout(() => {
      const text = session.path === '' ? '' : countWords(session.messages);
      setText(count, text);
    }, 700);
  };

  /** What is said of the place of the cursor is marked, and comes into sight
   * unless somebody is reading here. */
  const mark = (): void => {
    const { cursor, path } = session;
    const here = rows.find(({ message: { range, path: file } }) =>
      file === path && range && range.from <= cursor && cursor <= range.to);
    for (const row of rows) row.item.classList.toggle('ms-here', row === here);
    if (!here || root.matches(':focus-within, :hover')) return;
    const box = here.item.getBoundingClientRect();
    const frame = root.getBoundingClientRect();
    if (here === rows[0] && box.height < frame.height) root.scrollTop = 0;
    else if (box.top < frame.top) root.scrollTop -= frame.top - box.top + kRoom;
    else if (box.bottom > frame.bottom) {
      root.scrollTop += Math.min(box.bottom - frame.bottom, box.top - frame.top) + kRoom;
    }
  };
  let marking: ReturnType<typeof setTimeout> | undefined;
  const markSoon = (): void => {
    clearTimeout(marking);
    marking = setTimeout(mark, kRest);
  };

  session.addEventListener('place', markSoon);
  session.addEventListener('messages', () => { draw(); say(); markSoon(); });
  session.addEventListener('opened', () => { draw(); say(); });
  // Places and mends move with the text, before new answers are there.
  session.addEventListener('text', () => {
    for (const row of rows) row.message = session.messages[row.index] ?? row.message;
  });
  draw();
};
