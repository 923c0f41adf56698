/** What messages say of the command line, as it is done in this page. Messages
 * are written once, for those who type commands; here there are buttons. */

/** A phrase and what takes its place, in order. */
const kWords: readonly (readonly [RegExp, string])[] = [
  [/`sheaf patterns` lists them/g, 'the list under Pattern has them all'],
  [/`sheaf layouts` lists them/g, 'the list Layout, above, has them'],
  [/`sheaf sheets` lists (them all|them|those that there are)/g, 'the Guide shows them all'],
  [/`sheaf speech` lists them/g, 'the Guide says where to find them'],
  [/`sheaf check` shows (them|it) ready to paste; read (them|it) before you print/g,
    '“At this place”, above the text, can write $1 into the lesson; read $2 before you print'],
  [/`sheaf check` shows them; read them aloud/g, 'The pages show them; read them aloud'],
  [/`sheaf check` shows them;/g, 'The pages show them;'],
  [/`sheaf check --fix` writes a full stop/g, '“Mend all that is certain” writes a full stop'],
  [/`sheaf check` says what it took each for/g, 'Marking shows what it took each for'],
  [/`sheaf check` counts the words of the\n# list and says which words were not taught yet\./g,
    'the messages below say which words\n# were not taught yet.'],
  [/; `sheaf find [a-z_]+ --sentences` says what is missing for others/gi, ''],
  [/ `sheaf find PATTERN --sentences` shows others and what would have to be taught first\./g, ''],
  [/; `sheaf find` with `--older` shows words that older learners know/g, ''],
  [/; `sheaf find` shows others\./g, '.'],
  [/, or name one for all of them: `sheaf build LESSON --class \.\.\.`/g, ''],
  [/`sheaf probe` makes short lists that are alike\. Give one every week or two, and write it down with --kind probe\./g,
    'Short lists that are alike (the Guide calls them probes) show growth: give one every week or two.'],
  [/`sheaf forget` takes a learner out\. /g, ''],
  [/, or let `sheaf placement` write the check anew( from this sequence)?/g, ''],
  [/let `sheaf placement` write the check anew( from this sequence)?/g,
    'a check has to fit its sequence; take one that was made for it'],
  [/, as `sheaf placement` writes it/g, ''],
  [/; `sheaf placement` writes one/g, ''],
];

export function inBrowserWords(text: string): string {
  if (!text.includes('sheaf ')) return text;
  return kWords.reduce((said, [phrase, here]) => said.replace(phrase, here), text);
}
