/** Messages in words and nodes, the same beside the text and below it. */
import type { FileEdits, Fix, Message, Severity } from '../engine/types.js';

export const severityWords: Record<Severity, string> = {
  error: 'To be mended', warning: 'Worth a look', note: 'Note',
};
/** Beside the word, so that a glance tells them apart without colour. */
export const severitySigns: Record<Severity, string> = { error: '✕', warning: '△', note: '○' };

const kOrder: Record<Severity, number> = { error: 0, warning: 1, note: 2 };

/** A text in which words of the file stand between backticks. */
export function quoted(text: string): DocumentFragment {
  const fragment = document.createDocumentFragment();
  for (const [index, part] of pieces(text).entries()) {
    if (part === '') continue;
    if (index % 2 === 1) fragment.append(make('code', '', part));
    else fragment.append(part);
  }
  return fragment;
}

/** Every second piece stood between backticks; one without a partner is only
 * a sign of the text. */
export function pieces(text: string): string[] {
  const parts = text.split('`');
  if (parts.length % 2 === 0) {
    const last = parts.pop() ?? '';
    parts[parts.length - 1] += '`' + last;
  }
  return parts;
}

export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K, className = '', text = ''): HTMLElementTagNameMap[K] {
  const node = document.createElement(tag);
  if (className !== '') node.className = className;
  if (text !== '') node.textContent = text;
  return node;
}

/** The same text written again would have the browser lay out all that is around
 * it again, with each key. */
export function setText(node: Node, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}

/** The same for what is hidden. */
export function setHidden(node: HTMLElement, hidden: boolean): void {
  if (node.hidden !== hidden) node.hidden = hidden;
}

export function makeButton(text: string, className: string, click: () => void): HTMLButtonElement {
  const node = make('button', className, text);
  node.type = 'button';
  node.addEventListener('click', click);
  return node;
}

/** A file as a teacher knows it: without the top folder's stroke. */
export function fileName(path: string): string {
  return path.replace(/^\/+/, '');
}

/** Errors first, then by place; those of the open file before others. */
export function inOrder(messages: readonly Message[], path: string): Message[] {
  const other = (message: Message): number => (message.path === path ? 0 : 1);
  return [...messages].sort((a, b) =>
    kOrder[a.severity] - kOrder[b.severity] || other(a) - other(b)
    || (a.range?.from ?? -1) - (b.range?.from ?? -1));
}

export function where(message: Message, path: string): string {
  const line = message.line === null ? '' : `line ${message.line}`;
  if (message.path === path) return line;
  return [fileName(message.path), line].filter((part) => part !== '').join(', ');
}

export function counted(count: number, one: string, more: string): string {
  return count === 1 ? `1 ${one}` : `${count} ${more}`;
}

/** "2 to be mended, 1 note". */
export function countWords(messages: readonly Message[]): string {
  const of = (severity: Severity): number =>
    messages.filter((message) => message.severity === severity).length;
  const parts: string[] = [];
  if (of('error') > 0) parts.push(`${of('error')} to be mended`);
  if (of('warning') > 0) parts.push(`${of('warning')} worth a look`);
  if (of('note') > 0) parts.push(counted(of('note'), 'note', 'notes'));
  return parts.length === 0 ? 'nothing to mend' : parts.join(', ');
}

export interface Mends { files: FileEdits[]; count: number }

/** All mends that cannot change what was meant, one of a message, in one go.
 * Two that touch the same place: the first. */
export function certainMends(messages: readonly Message[]): Mends {
  const files = new Map<string, FileEdits>();
  let count = 0;
  const free = (fix: Fix): boolean => fix.files.every((file) =>
    file.edits.every((edit) => !(files.get(file.path)?.edits ?? []).some((taken) =>
      edit.from <= taken.to && taken.from <= edit.to)));
  for (const message of messages) {
    const fix = message.fixes.find((one) => one.certain);
    if (!fix || !free(fix)) continue;
    count += 1;
    for (const file of fix.files) {
      const all = files.get(file.path) ?? { path: file.path, edits: [] };
      all.edits.push(...file.edits);
      files.set(file.path, all);
    }
  }
  for (const file of files.values()) file.edits.sort((a, b) => a.from - b.from);
  return { files: [...files.values()], count };
}
