/** What a command says of the files, as sentences for the teacher. */
import { fields, figure, list, readAnswer, words } from './json.js';

export interface Said {
  severity: 'error' | 'warning' | 'note';
  name: string;
  /** The path without its first slash; '' where the message is about no file. */
  file: string;
  /** From 1; 0: the file as a whole. */
  line: number;
  text: string;
  help: string;
}

export const kSeverityWords: Readonly<Record<Said['severity'], string>> = {
  error: 'To be mended', warning: 'Worth a look', note: 'Note',
};

const severityOf = (text: string): Said['severity'] =>
  text === 'error' || text === 'warning' ? text : 'note';

/** The messages of `check --json`; null where it gave none in that form. */
export function checkMessages(out: string): Said[] | null {
  const answer = readAnswer(out);
  if (answer === null) return null;
  return list(fields(answer).messages).map(one => {
    const message = fields(one);
    const place = fields(message.place);
    const begin = fields(place.begin);
    return {
      severity: severityOf(words(message.severity)), name: words(message.name),
      file: words(place.file).replace(/^\//, ''),
      line: figure(begin.line),
      text: words(message.text), help: words(message.help),
    };
  });
}

/** The messages among what a command wrote for a terminal. The line of the file
 * below each is left out: it could hold what the message itself does not repeat. */
export function spokenMessages(err: string): Said[] {
  const said: Said[] = [];
  for (const line of err.split('\n')) {
    const message = /^(?:(.+?)(?::(\d+):\d+)?: )?(error|warning|note): (.*?)(?: \[([a-z0-9-]+)\])?$/.exec(line);
    if (message) {
      said.push({
        severity: severityOf(message[3] ?? ''), name: message[5] ?? '',
        file: (message[1] ?? '').replace(/^\//, ''), line: Number(message[2] ?? 0),
        text: message[4] ?? '', help: '',
      });
      continue;
    }
    const help = /^ {2}help: (.*)$/.exec(line)?.[1];
    const last = said.at(-1);
    if (help !== undefined && last !== undefined) {
      last.help = last.help === '' ? help : `${last.help} ${help}`;
      continue;
    }
    const whole = /^sheaf(?: [a-z]+)?: (.*)$/.exec(line)?.[1];
    if (whole !== undefined) {
      said.push({ severity: 'error', name: '', file: '', line: 0, text: whole, help: '' });
    }
  }
  return said;
}

export function countsOf(said: readonly Said[]): { errors: number; warnings: number } {
  return {
    errors: said.filter(({ severity }) => severity === 'error').length,
    warnings: said.filter(({ severity }) => severity === 'warning').length,
  };
}
