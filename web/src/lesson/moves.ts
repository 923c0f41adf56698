/** What is known of a text, moved along when the text changes. */
import type { ChangeDesc, Text } from '@codemirror/state';
import type { Edit, FileEdits, Message, Range } from '../engine/types.js';

/** Lines without their ends, and without a byte order mark: offsets count one
 * code unit for the end of a line. */
export function plainLines(text: string): string[] {
  return text.replace(/^\uFEFF/, '').split(/\r\n?|\n/);
}

/** The text with these edits, which are by place and do not overlap. */
export function editText(text: string, edits: readonly Edit[]): string {
  let result = '';
  let at = 0;
  for (const edit of [...edits].sort((a, b) => a.from - b.from)) {
    result += text.slice(at, edit.from) + edit.insert;
    at = edit.to;
  }
  return result + text.slice(at);
}

/** What was typed at its edges is not part of it. */
export function moveRange(range: Range, changes: ChangeDesc): Range {
  const place = (at: number): number => Math.min(at, changes.length);
  const from = changes.mapPos(place(range.from), 1);
  return { from, to: Math.max(from, changes.mapPos(place(range.to), -1)) };
}

// A mend whose place was changed is none any more; its files are then null.
function moveFile(file: FileEdits, path: string, changes: ChangeDesc): FileEdits | null {
  if (file.path !== path) return file;
  const edits: Edit[] = [];
  for (const edit of file.edits) {
    if (edit.to > changes.length || changes.touchesRange(edit.from, edit.to)) return null;
    edits.push({ ...moveRange(edit, changes), insert: edit.insert });
  }
  return { path, edits };
}

/** The messages for the text after the change: with their places moved, and
 * without mends that fit no more. */
export function moveMessages(messages: readonly Message[], path: string,
                             changes: ChangeDesc, doc: Text): readonly Message[] {
  const place = (range: Range): { range: Range; line: number; column: number } => {
    const moved = moveRange(range, changes);
    const at = doc.lineAt(Math.min(moved.from, doc.length));
    return { range: moved, line: at.number, column: moved.from - at.from + 1 };
  };
  return messages.map((message) => {
    const here = message.path === path && message.range !== null
      && message.range.to <= changes.length;
    return {
      ...message,
      ...(here && message.range ? place(message.range) : {}),
      remarks: message.remarks.map((remark) => {
        if (remark.path !== path || !remark.range || remark.range.to > changes.length) return remark;
        const { range, line } = place(remark.range);
        return { ...remark, range, line };
      }),
      fixes: message.fixes.flatMap((fix) => {
        const files = fix.files.map((file) => moveFile(file, path, changes));
        return files.some((file) => file === null)
          ? [] : [{ ...fix, files: files.filter((file) => file !== null) }];
      }),
    };
  });
}
