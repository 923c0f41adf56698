/** The steps of a sequence, for choosing one. */

export interface Step {
  /** As --step takes it. */
  number: string;
  label: string;
}

/** Read line by line as a sequence is usually written: a list under `steps:`
 * with `number`, `name`, `patterns` and `note`. Nothing where it is written in
 * another way: then a pattern is chosen by hand, which always works. */
export function stepsIn(text: string): Step[] {
  const steps: Step[] = [];
  let inside = false;
  let one: Map<string, string> | null = null;
  const finish = () => {
    if (!one) return;
    const patterns = one.get('patterns') ?? one.get('pattern') ?? '';
    const number = one.get('number') ?? one.get('name') ?? '';
    if (number !== '' && patterns !== '') {
      const name = one.get('name');
      steps.push({ number, label: `${number}: ${name !== undefined && name !== number ? `${name}, ` : ''}${patterns}` });
    }
    one = null;
  };
  for (const line of text.split(/\r?\n/)) {
    if (/^steps:\s*(#.*)?$/.test(line)) { inside = true; continue; }
    if (/^\S/.test(line) && !line.startsWith('#') && !line.startsWith('-')) { if (inside) finish(); inside = false; continue; }
    if (!inside) continue;
    const begins = /^\s*-\s+(.*)$/.exec(line);
    if (begins) { finish(); one = new Map(); }
    const pair = /^\s*(?:-\s+)?([a-z-]+):\s*(.*?)\s*(?:\s#.*)?$/.exec(line);
    if (pair && one) {
      const value = (pair[2] ?? '').replace(/^["'[]|["'\]]$/g, '');
      one.set(pair[1] ?? '', value);
    }
  }
  finish();
  return steps;
}

export function isSequence(text: string): boolean {
  return /^steps:/m.test(text);
}
