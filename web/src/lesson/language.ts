/** How the text of a lesson is coloured: keys, words, what is marked, lines of
 * text below a key, remarks. It only looks at the shape; what is right or wrong
 * the engine says. */
import { HighlightStyle, StreamLanguage, indentService, syntaxHighlighting,
         type StreamParser, type StringStream } from '@codemirror/language';
import type { EditorState, Extension } from '@codemirror/state';
import { Tag } from '@lezer/highlight';

export type Kind = 'key' | 'word' | 'number' | 'sign' | 'marked' | 'remark' | 'line' | 'quoted';

interface Reading {
  /** The indent of the key whose lines of text are being read; -1: none. */
  block: number;
  /** The indent of this line. */
  indent: number;
  /** A value has begun: no key may follow in this line. */
  inValue: boolean;
  /** How many { and [ are open. */
  depth: number;
}

const kKey = /^(?:[A-Za-z_][\w-]*(?: [\w-]+)*|"[^"]*"|'[^']*')(?=\s*:(?:\s|$))/;
const kBlock = /^[|>][-+0-9]*(?=\s*(?:#.*)?$)/;

// In lines of text: what stands in braces is marked for the learner.
function readLine(stream: StringStream): Kind {
  if (stream.match(/^\{[^{}]*\}/)) return 'marked';
  if (!stream.match(/^[^{]+/)) stream.next();
  return 'line';
}

function readValue(stream: StringStream, state: Reading): Kind | null {
  const opened = stream.match(/^[[{]/);
  const closed = !opened && stream.match(/^[\]}]/);
  if (opened || closed) {
    state.depth = Math.max(0, state.depth + (opened ? 1 : -1));
    // In a list between braces each part may begin with a key.
    state.inValue = state.depth === 0;
    return 'sign';
  }
  if (stream.match(/^"(?:[^"\\]|\\.)*"?/) || stream.match(/^'(?:[^']|'')*'?/)) return 'quoted';
  if (stream.match(/^[,:]/)) {
    state.inValue = state.depth === 0;
    return 'sign';
  }
  if (stream.match(/^\d+(?:[.-]\d+)*(?=[\s,\]}]|$)/)) return 'number';
  if (stream.match(/^[^\s,[\]{}:"']+/) || stream.match(/^[^\s,[\]{}]+/)) return 'word';
  stream.next();
  return null;
}

export const lessonReader: StreamParser<Reading> = {
  name: 'lesson',
  startState: () => ({ block: -1, indent: 0, inValue: false, depth: 0 }),
  copyState: (state) => ({ ...state }),

  token(stream, state) {
    if (stream.sol()) {
      state.indent = stream.indentation();
      state.inValue = false;
      // Lines of text end where a line is indented no more than their key.
      const blank = /^\s*$/.test(stream.string);
      if (state.block >= 0 && !blank && state.indent <= state.block) state.block = -1;
    }
    if (stream.eatSpace()) return null;
    if (state.block >= 0) return readLine(stream);
    const before = stream.pos === 0 ? ' ' : stream.string.charAt(stream.pos - 1);
    if (stream.peek() === '#' && /\s/.test(before)) {
      stream.skipToEnd();
      return 'remark';
    }
    if (!state.inValue) {
      if (stream.match(/^-(?=\s|$)/)) {
        // The key behind it counts as indented by as much.
        const behind = stream.string.slice(stream.pos);
        state.indent = stream.pos + behind.length - behind.trimStart().length;
        return 'sign';
      }
      if (stream.match(kKey)) return 'key';
      if (stream.match(/^:(?=\s|$)/)) {
        state.inValue = true;
        return 'sign';
      }
    } else if (stream.match(kBlock)) {
      state.block = state.indent;
      return 'sign';
    }
    return readValue(stream, state);
  },

  languageData: { commentTokens: { line: '#' } },
};

const kKinds: readonly Kind[] =
  ['key', 'word', 'number', 'sign', 'marked', 'remark', 'line', 'quoted'];
const tags = Object.fromEntries(kKinds.map((kind) => [kind, Tag.define()])) as Record<Kind, Tag>;

export const lessonLanguage = StreamLanguage.define({ ...lessonReader, tokenTable: tags });

// Colours stand in editor.css, so that the system's own colours can win there.
const style = HighlightStyle.define(
  kKinds.map((kind) => ({ tag: tags[kind], class: `ed-${kind}` })));

/** How far a new line is indented: as the one before, and further below a key
 * that has nothing beside it or that opens lines of text. */
export function indentBelow(state: EditorState, at: number): number {
  const line = state.doc.lineAt(at);
  const before = state.doc.sliceString(line.from, at);
  const indent = /^ */.exec(before)?.[0].length ?? 0;
  const plain = before.replace(/(^|\s)#.*$/, '');
  return /:\s*(?:[|>][-+0-9]*)?\s*$/.test(plain) ? indent + 2 : indent;
}

export function lessonHighlighting(): Extension {
  return [
    lessonLanguage,
    syntaxHighlighting(style),
    indentService.of((context, at) =>
      // Only where a new line is being begun; lines that are there stay.
      context.simulatedBreak === null || context.simulatedBreak !== at
        ? undefined : indentBelow(context.state, at)),
  ];
}
