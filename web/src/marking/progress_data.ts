/** What `progress --json` answers. */
import { fields, figure, list, readAnswer, words } from '../folder/json.js';

export interface Share { right: number; of: number }
export interface PatternState {
  pattern: string;
  state: string;
  taught: string;
  all: Share;
  newWords: Share;
  writing: Share;
  /** What the state rests on, in words. */
  why: string;
}
export interface Day { date: string; kind: string; words: Share; sequences: number; possible: number }
export interface LearnerProgress { learner: string; patterns: PatternState[]; days: Day[] }
export interface Progress { asOf: string; learners: LearnerProgress[] }

const share = (value: unknown): Share => ({ right: figure(fields(value).right), of: figure(fields(value).of) });

export function progressOf(out: string): Progress | null {
  const answer = fields(readAnswer(out));
  if (!Array.isArray(answer.learners)) return null;
  return {
    asOf: words(answer.as_of),
    learners: list(answer.learners).map(one => {
      const learner = fields(one);
      return {
        learner: words(learner.learner),
        patterns: list(learner.patterns).map(two => {
          const pattern = fields(two);
          return { pattern: words(pattern.pattern), state: words(pattern.state), taught: words(pattern.taught),
            all: share(pattern.all), newWords: share(pattern.new_words), writing: share(pattern.writing),
            why: words(pattern.why) };
        }),
        days: list(learner.days).map(two => {
          const day = fields(two);
          return { date: words(day.date), kind: words(day.kind), words: share(day.words),
            sequences: figure(day.letter_sequences), possible: figure(day.letter_sequences_possible) };
        }),
      };
    }),
  };
}

const kStateSigns: Readonly<Record<string, string>> = {
  secure: '✓', 'go on': '→', practising: '○', 'check again': '↺',
};
export function stateSign(state: string): string { return kStateSigns[state] ?? '·'; }

/** With fewer than five chances there is no percentage: it would say too much. */
export function shareWords({ right, of }: Share): string {
  if (of === 0) return 'none';
  return of < 5 ? `${right} of ${of}` : `${right} of ${of} (${Math.round((right * 100) / of)}%)`;
}

/** "th_voiceless" → "th voiceless", but "a_e" stays. */
export function patternWords(id: string): string {
  return /^[a-z]_[a-z]$/.test(id) ? id : id.replace(/_/g, ' ');
}
