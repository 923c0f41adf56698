/** What `mark --json` answers, and the sign and word for each result. */
import { fields, figure, list, readAnswer, words } from '../folder/json.js';

export type Result = 'correct' | 'plausible' | 'wrong' | 'missing' | 'moved';

/** Sign and word together: neither colour nor shape alone says it. */
export const kSigns: Readonly<Record<Result, string>> = {
  correct: '✓', plausible: '≈', wrong: '✗', missing: '–', moved: '⇄',
};

export const kResultHelp: Readonly<Record<Result, string>> = {
  correct: 'as it is spelled in this word',
  plausible: 'spells the sound, but not in this word',
  wrong: 'another sound',
  missing: 'not written',
  moved: 'written in another place',
};

export interface MarkedGrapheme { grapheme: string; result: Result }

export interface Attempt {
  /** '' where nobody's in particular. */
  learner: string;
  target: string;
  written: string;
  graphemes: MarkedGrapheme[];
  /** Letters that belong to none of them. */
  extra: number;
  sequences: number;
  possible: number;
  right: boolean;
  /** In words, each grapheme that is not right, with its likely cause; '' where
   * the command did not say. */
  what: string;
}

const isResult = (text: string): text is Result => text in kSigns;

/** Null where the answer is none of `mark --json`. */
export function attemptsOf(out: string): Attempt[] | null {
  const all = fields(readAnswer(out)).attempts;
  if (!Array.isArray(all)) return null;
  return list(all).map(one => {
    const attempt = fields(one);
    return {
      learner: words(attempt.learner), target: words(attempt.target), written: words(attempt.written),
      graphemes: list(attempt.graphemes).map(part => {
        const result = words(fields(part).result);
        return { grapheme: words(fields(part).grapheme), result: isResult(result) ? result : 'wrong' };
      }),
      extra: figure(attempt.extra), sequences: figure(attempt.letter_sequences),
      possible: figure(attempt.letter_sequences_possible), right: attempt.right === true, what: '',
    };
  });
}

/** The last column of the table that `mark` prints for people has the causes in
 * words. Columns are two blanks or more apart, and the last has none such. */
export function causesOf(out: string): { learner: string; target: string; what: string }[] {
  const rows: { learner: string; target: string; what: string }[] = [];
  let columns: string[] | null = null;
  for (const line of out.split('\n')) {
    const cells = line.trim().split(/ {2,}/);
    if (cells.at(-1) === 'what' && cells.includes('word')) {
      columns = cells;
    } else if (!line.startsWith('  ')) {
      columns = null;
    } else if (columns !== null && cells.length > 2) {
      const cell = (name: string) => cells[columns?.indexOf(name) ?? -1] ?? '';
      rows.push({ learner: cell('learner'), target: cell('word'), what: cells.at(-1) ?? '' });
    }
  }
  return rows;
}

/** Puts the causes beside the attempts that are not right. Rows of the table are
 * in the order of the attempts; `all`: it has rows for the right ones, too. */
export function withCauses(attempts: readonly Attempt[], out: string, all: boolean): Attempt[] {
  const rows = causesOf(out);
  const wanted = attempts.filter(attempt => all || !attempt.right);
  const fits = rows.length === wanted.length &&
    rows.every((row, i) => row.target === wanted[i]?.target && row.learner === wanted[i]?.learner);
  if (!fits) return [...attempts];
  let next = 0;
  return attempts.map(attempt => {
    if (!all && attempt.right) return attempt;
    const what = rows[next++]?.what ?? '';
    return { ...attempt, what: what === 'right' ? '' : what };
  });
}

export interface Score { right: number; of: number; sequences: number; possible: number }

export function scoreOf(attempts: readonly Attempt[]): Score {
  return {
    right: attempts.filter(({ right }) => right).length, of: attempts.length,
    sequences: attempts.reduce((sum, one) => sum + one.sequences, 0),
    possible: attempts.reduce((sum, one) => sum + one.possible, 0),
  };
}

export function scoreWords({ right, of, sequences, possible }: Score): string {
  return `${right} of ${of} ${of === 1 ? 'word' : 'words'} right; letter sequences ${sequences} of ${possible}.`;
}

/** Stands wherever a score is shown. */
export const kCaution = 'Scores describe how these words went and nothing else. They do not screen for or diagnose ' +
  'anything: qualified professionals and local policy decide about that.';

/** What comes next, as `mark` says it of a group, pattern by pattern. */
export function adviceOf(out: string): string[] {
  return out.split('\n')
    .filter(line => /^ {2}[^\s:][^:]*: (?:go on|another set|back to the sounds|too few to tell)\b/.test(line))
    .map(line => line.trim());
}
