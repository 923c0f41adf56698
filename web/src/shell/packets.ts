/** The finished pages: saved, or opened to be printed. */
import type { NamedFile, Packets } from '../engine/types.js';
import { finishForm } from '../form/form.js';
import { errorsInWords, type Shell } from './app.js';
import { button, count, el, inWords } from './dom.js';
import { lessonSession } from '../lesson/session.js';
import { openBox } from './dialogs.js';
import { stem } from './names.js';

export type Whose = 'learner' | 'teacher';

function partOf(packets: Packets, whose: Whose): NamedFile | undefined {
  return packets.files.find((one) => one.name.includes('teacher') === (whose === 'teacher'));
}

/** "oa-boat-packet.pdf", "oa-boat-teacher.pdf". */
export function packetName(path: string, whose: Whose): string {
  return `${stem(path) || 'lesson'}-${whose === 'learner' ? 'packet' : 'teacher'}.pdf`;
}

/** Makes both, of the text as it is now. Where it has mistakes it says the first
 * of them, goes there, and answers null. */
async function make(app: Shell): Promise<Packets | null> {
  const { session, engine } = app;
  const slow = setTimeout(() => app.say('Making the pages…'), 400);
  try {
    await finishForm();
    await session.settled();
    lessonSession(session).push();
    const packets = await engine.packets(session.path);
    clearTimeout(slow);
    if (packets.errors === 0 && packets.files.length > 0) return packets;
    const first = session.messages.find((message) => message.severity === 'error');
    app.show('lesson');
    app.say(first ? `${errorsInWords(packets.errors || 1)}. ${first.line !== null ? `Line ${first.line}: ` : ''}${first.text.replaceAll('`', '')}`
      : 'The pages could not be made from this text.', 'fault');
    if (first?.range && first.path === session.path) session.goTo(first.range);
    return null;
  } catch (fault) {
    clearTimeout(slow);
    app.say(`The pages could not be made: ${inWords(fault)}`, 'fault');
    return null;
  }
}

export async function savePacket(app: Shell, whose: Whose): Promise<void> {
  const packets = await make(app);
  const part = packets && partOf(packets, whose);
  if (!packets || !part) return;
  const name = packetName(app.session.path, whose);
  app.download(name, part.bytes, 'application/pdf');
  app.say(`${name}, ${count(whose === 'learner' ? packets.learnerPages : packets.teacherPages, 'page')}, is with your downloads.`, 'done');
}

/** The pages are made before the question is put, so that each answer is a link:
 * no browser holds that back as a pop-up. */
export async function printPages(app: Shell): Promise<void> {
  const packets = await make(app);
  if (!packets) return;
  const addresses: string[] = [];
  const row = el('p', { class: 'shell-box-buttons' });
  const link = (whose: Whose, label: string, pages: number) => {
    const part = partOf(packets, whose);
    if (!part) return;
    const address = URL.createObjectURL(new Blob([part.bytes], { type: 'application/pdf' }));
    addresses.push(address);
    const node = el('a', { href: address, target: '_blank', class: whose === 'learner' ? 'button main' : 'button' },
      `${label}, ${count(pages, 'page')}`);
    row.append(node);
  };
  link('learner', 'For the learner', packets.learnerPages);
  link('teacher', 'For the teacher', packets.teacherPages);
  const box = openBox('Print',
    el('p', {}, 'The pages open in a tab of their own; print them there. Choose “Actual size” or 100%, ',
      'and both sides of the paper if your printer can.'),
    row,
    el('p', { class: 'shell-box-buttons' }, button('Close', () => box.close())));
  row.querySelector('a')?.focus();
  await box.closed;
  app.say('');
  // The tabs have read them long before.
  setTimeout(() => addresses.forEach((address) => URL.revokeObjectURL(address)), 300_000);
}
