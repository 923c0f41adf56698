/** The keys of a lesson as a teacher would say them. */

export interface KeyWords { label: string; hint: string; offers: boolean }

const known: Readonly<Record<string, KeyWords>> = {
  title: { label: 'Title', hint: 'On the first page; Sheaf finds one where you write none.', offers: false },
  pattern: { label: 'Pattern', hint: 'Type letters, a sound or a family; two to tell apart with a comma.', offers: false },
  words: { label: 'Words', hint: 'With a blank between.', offers: true },
  sentences: { label: 'Sentences to read', hint: 'One on each line. A number alone (6): Sheaf chooses so many.', offers: false },
  passage: { label: 'Passage to read', hint: 'Connected text. A number alone (80): Sheaf chooses one of about so many words.', offers: false },
  'dictate-words': { label: 'Words to dictate', hint: 'Also some that learners have not seen this week.', offers: true },
  'dictate-sentences': { label: 'Sentences to dictate', hint: 'One on each line; not those to read.', offers: false },
  'sight-words': { label: 'Words by sight', hint: 'Known although they cannot be sounded out yet: the, was.', offers: false },
  'teacher-note': { label: 'Note', hint: 'For you: it stands in the script.', offers: false },
  'home-note': { label: 'Note for home', hint: 'Goes home with the learner.', offers: false },
};

/** Those that have a place elsewhere on the page. */
export const elsewhere = new Set(['layout']);

export function wordsFor(key: string): KeyWords {
  const spoken = key.replaceAll('-', ' ');
  return known[key] ?? { label: spoken.charAt(0).toUpperCase() + spoken.slice(1), hint: '', offers: false };
}

/** The order in which a teacher fills them in. */
const order = ['pattern', 'words', 'sentences', 'dictate-words', 'dictate-sentences', 'sight-words', 'title',
  'passage', 'teacher-note', 'home-note'];

export function inFormOrder<Of extends { key: string }>(fields: readonly Of[]): Of[] {
  const place = (one: Of) => {
    const at = order.indexOf(one.key);
    return at < 0 ? order.length : at;
  };
  return [...fields].filter((one) => !elsewhere.has(one.key)).sort((a, b) => place(a) - place(b));
}

/** Whether two texts of a field say the same, as far as the lesson goes: blanks
 * at ends and between words are typed on the way to more. */
export function saysTheSame(a: string, b: string, lines: boolean): boolean {
  const calm = (text: string) => lines
    ? text.split(/\r?\n/).map((line) => line.trim()).join('\n').trim()
    : text.replace(/\s+/g, ' ').trim();
  return calm(a) === calm(b);
}

/** The words with one more behind them. */
export function withWord(text: string, word: string): string {
  const before = text.trimEnd();
  return before === '' ? word : `${before}${/,$/.test(before) ? '' : before.includes(', ') ? ',' : ''} ${word}`;
}
