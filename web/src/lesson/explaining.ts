/** "What does this mean?": a message explained, with an example. */
import type { App } from '../contract.js';
import { make, makeButton, quoted } from './words.js';

export type Block = { kind: 'text' | 'head' | 'example'; text: string };

/** What `explain` says, in parts: paragraphs, what stands above an example
 * ("Wrong:"), and examples, which are indented. The first line names it. */
export function blocksOf(text: string): Block[] {
  const blocks: Block[] = [];
  let last: Block | null = null;
  for (const line of text.replace(/\s+$/, '').split('\n')) {
    const kind = /^ {2,}\S/.test(line) ? 'example' : /^\S[^.]*:$/.test(line) ? 'head' : 'text';
    if (line.trim() === '') {
      // Within an example a blank line belongs to it.
      if (last?.kind === 'example') last.text += '\n';
      else last = null;
    } else if (last && last.kind === kind && kind !== 'head') {
      last.text += (kind === 'example' ? '\n' : ' ') + (kind === 'example' ? line.slice(4) : line);
    } else {
      last = { kind, text: kind === 'example' ? line.slice(4) : line };
      blocks.push(last);
    }
  }
  return blocks.map((block) => ({ ...block, text: block.text.replace(/\n+$/, '') }));
}

/** The title: without the message's name, which is for those who write scripts. */
function titleOf(text: string): string {
  const title = text.replace(/^[a-z0-9-]+: /, '');
  return title.charAt(0).toUpperCase() + title.slice(1);
}

export async function explain(app: App, name: string): Promise<void> {
  let text = '';
  try {
    text = await app.engine.explain(name);
  } catch {
    // Said below.
  }
  const [first, ...rest] = blocksOf(text);
  if (!first) {
    app.say('Nothing more is known of this message.', 'fault');
    return;
  }
  const dialog = make('dialog', 'ms-dialog');
  const head = make('h2', 'ms-dialog-head', titleOf(first.text));
  head.id = 'ms-dialog-head';
  head.tabIndex = -1;
  dialog.setAttribute('aria-labelledby', head.id);
  dialog.append(head);
  for (const block of rest) {
    if (block.kind === 'example') {
      dialog.append(make('pre', 'ms-example', block.text));
    } else {
      const row = make(block.kind === 'head' ? 'h3' : 'p', '');
      row.append(quoted(block.text));
      dialog.append(row);
    }
  }
  dialog.append(makeButton('Close', 'button main', () => dialog.close()));
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  head.focus();
}
