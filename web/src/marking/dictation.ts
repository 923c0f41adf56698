/** What a lesson dictates. */
import type { Engine } from '../engine/types.js';
import { fields, list, readAnswer, words } from '../folder/json.js';
import { shown } from '../folder/paths.js';

export interface Dictation { words: string[]; sentences: string[] }

export function dictationOf(out: string): Dictation | null {
  const lesson = fields(readAnswer(out)).lesson;
  if (typeof lesson !== 'object' || lesson === null) return null;
  const dictated = list(fields(lesson).dictate_words).map(one => words(fields(one).word));
  const all = dictated.length > 0 ? dictated : list(fields(lesson).words).map(one => words(fields(one).word));
  return {
    words: [...new Set(all.filter(word => word !== ''))],
    sentences: list(fields(lesson).dictate_sentences).map(one => words(fields(one).text)).filter(text => text !== ''),
  };
}

/** Null where the file has mistakes or is no lesson. */
export async function dictationIn(engine: Engine, path: string): Promise<Dictation | null> {
  return dictationOf((await engine.run(['check', shown(path), '--json'])).out);
}
