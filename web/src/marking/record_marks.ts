/** Marking a record that is still being typed. */
import type { Engine } from '../engine/types.js';
import { fields, figure, list, readAnswer, words } from '../folder/json.js';
import { shown } from '../folder/paths.js';
import { spokenMessages } from '../folder/said.js';
import { adviceOf, attemptsOf, withCauses, type Attempt } from './attempts.js';
import { recordText, type Entry, type Form } from './record_text.js';

export interface Mend { entry: string; by: string }
/** What has to be asked about one learner's line. */
export interface Question { text: string; help: string; mends: Mend[] }

export interface RecordMarks {
  /** By code; nobody who was away, and nobody with a question. */
  attempts: Map<string, Attempt[]>;
  questions: Map<string, Question[]>;
  /** Faults of the record as a whole. */
  faults: string[];
  /** What comes next for the group, pattern by pattern. */
  advice: string[];
}

/** Faults by learner, from what `check --json` says of the record. */
export function questionsOf(out: string, text: string, lines: ReadonlyMap<string, number>):
{ questions: Map<string, Question[]>; faults: string[] } {
  const questions = new Map<string, Question[]>();
  const faults: string[] = [];
  const rows = text.split('\n');
  const codes = new Map([...lines].map(([code, line]) => [line, code]));
  for (const one of list(fields(readAnswer(out)).messages)) {
    const message = fields(one);
    if (words(message.severity) !== 'error') continue;
    const begin = fields(fields(message.place).begin);
    const code = codes.get(figure(begin.line));
    if (code === undefined) {
      faults.push(words(message.text));
      continue;
    }
    const mends = list(message.fixes).map(fix => {
      const place = fields(fields(fix).place);
      const from = fields(place.begin);
      return { by: words(fields(fix).replacement),
        entry: (rows[figure(from.line) - 1] ?? '').slice(figure(from.utf16), figure(fields(place.end).utf16)) };
    });
    questions.set(code, [...questions.get(code) ?? [],
      { text: words(message.text), help: words(message.help), mends }]);
  }
  return { questions, faults };
}

/** `draft`: where it lies in the engine while it is looked at; nothing stays there. */
export async function markRecord(engine: Engine, form: Form, entries: readonly Entry[], draft: string):
Promise<RecordMarks> {
  const marks: RecordMarks = { attempts: new Map(), questions: new Map(), faults: [], advice: [] };
  try {
    const whole = recordText(form, entries);
    await engine.putFile(draft, whole.text);
    const check = await engine.run(['check', shown(draft), '--json']);
    if (readAnswer(check.out) === null) {
      marks.faults = spokenMessages(check.err).map(({ text }) => text);
      return marks;
    }
    Object.assign(marks, questionsOf(check.out, whole.text, whole.lines));
    const clear = entries.filter(({ code, absent }) => !absent && !marks.questions.has(code));
    if (marks.faults.length > 0 || clear.length === 0) return marks;
    // One learner with a question does not keep the others from being marked.
    await engine.putFile(draft, recordText(form, clear).text);
    const json = await engine.run(['mark', shown(draft), '--json']);
    const said = await engine.run(['mark', shown(draft)]);
    const attempts = attemptsOf(json.out);
    if (json.code !== 0 || attempts === null) {
      marks.faults = spokenMessages(json.err).filter(({ severity }) => severity === 'error').map(({ text }) => text);
      return marks;
    }
    for (const { code } of clear) marks.attempts.set(code, []);
    for (const attempt of withCauses(attempts, said.out, false)) {
      marks.attempts.get(attempt.learner)?.push(attempt);
    }
    marks.advice = adviceOf(said.out);
    return marks;
  } finally {
    await engine.removeFile(draft);
  }
}
