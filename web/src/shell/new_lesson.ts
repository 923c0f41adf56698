/** A new lesson from a pattern, or from the next step of a sequence. */
import { openBox } from './dialogs.js';
import type { Shell } from './app.js';
import { button, count, el, freshId, inWords } from './dom.js';
import { fileName, freePath } from './names.js';
import { createPatternBox, type PatternBox } from './pattern_box.js';
import { isSequence, stepsIn, type Step } from './steps.js';

/** Writes the draft and opens it; false where that did not come about. */
async function begin(app: Shell, make: () => Promise<{ name: string; text: string }>): Promise<boolean> {
  if (!await app.mayLeave()) return false;
  try {
    const { name, text } = await make();
    app.file.begin(name, text);
    app.show('lesson');
    app.say('A first draft. Read it through, then print.', 'done');
    return true;
  } catch (fault) {
    app.say(`No lesson could be begun: ${inWords(fault)}`, 'fault');
    return false;
  }
}

/** The sequences of the folder; mostly there is one. */
async function sequences(app: Shell): Promise<{ path: string; steps: Step[] }[]> {
  const found: { path: string; steps: Step[] }[] = [];
  for (const path of app.folder.paths) {
    if (!/\.ya?ml$/i.test(path)) continue;
    const bytes = await app.folder.read(path);
    if (!bytes || bytes.length > 1024 * 1024) continue;
    const text = new TextDecoder().decode(bytes);
    const steps = isSequence(text) ? stepsIn(text) : [];
    if (steps.length > 0) found.push({ path, steps });
  }
  return found;
}

async function draftOfStep(app: Shell, sequence: string, step: Step): Promise<{ name: string; text: string }> {
  const path = freePath(`step-${step.number.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.yaml`, app.folder.paths);
  const answer = await app.engine.run(['draft', '--sequence', sequence, '--step', step.number, '--file', path]);
  const bytes = await app.engine.readFile(answer.written[0] ?? path);
  // Until it is saved it is on the desk alone, and may be drafted again.
  for (const written of answer.written) await app.engine.removeFile(written);
  if (answer.code !== 0 || !bytes) throw new Error(answer.err.replace(/^sheaf: /, '').trim() || 'the step gave no words');
  return { name: fileName(path), text: new TextDecoder().decode(bytes) };
}

function stepChoice(app: Shell, done: () => void): HTMLElement {
  const place = el('div', { class: 'shell-steps' });
  const fill = async () => {
    const all = await sequences(app);
    place.replaceChildren();
    for (const { path, steps } of all) {
      const choose = el('select', { id: freshId('step') },
        ...steps.map((step, i) => el('option', { value: i }, step.label)));
      place.append(
        el('label', { for: choose.id, class: 'shell-label' },
          `Or a step of ${fileName(path)}, ${count(steps.length, 'step')}`),
        el('p', { class: 'shell-hint' }, 'Its words hold nothing that comes later.'),
        el('p', { class: 'shell-box-buttons' }, choose, button('Begin with this step', () => {
          const step = steps[Number(choose.value)];
          if (step) void begin(app, () => draftOfStep(app, path, step)).then((yes) => { if (yes) done(); });
        })));
    }
  };
  void fill().catch(() => undefined);
  app.folder.addEventListener('change', () => { if (place.isConnected) void fill().catch(() => undefined); });
  return place;
}

const hint = 'Letters, a sound or a family: the nearest is on top, and Enter takes it. ' +
  'For two to tell apart, type both: ai, ay';

function patternChoice(app: Shell, done: () => void): PatternBox {
  return createPatternBox(app.engine, {
    label: 'Which pattern is next?', hint, examples: ['sh', 'oa', 'long a', 'silent e', 'ai, ay'],
    choose(found) {
      void begin(app, () => app.engine.draft(found.value)).then((yes) => { if (yes) done(); });
    },
  });
}

/** Over the page, once a lesson is open. */
export function newLessonBox(app: Shell): void {
  let close = () => { /* until the box is there */ };
  const patterns = patternChoice(app, () => close());
  const box = openBox('New lesson', patterns.element, stepChoice(app, () => close()),
    el('p', { class: 'shell-box-buttons' }, button('Leave it', () => box.close())));
  box.element.classList.add('shell-new-box');
  close = () => box.close('begun');
  patterns.input.focus();
}

/** What the page shows as long as no lesson is open: the same choice at once,
 * so that the first thing pressed leads to pages. */
export function createBeginning(app: Shell, open: () => void): HTMLElement {
  const patterns = patternChoice(app, () => undefined);
  const about = el('div', { class: 'shell-begin-about' },
    el('h1', { tabindex: '-1', class: 'shell-view-head' }, 'One spelling pattern, a week of pages'),
    el('p', {}, 'Choose a pattern, and Sheaf drafts a lesson and lays out its pages beside it: for the learner to work on, ',
      'and for you a script and an answer key. Change any word of it; the pages follow. Then print, or save the packet.'),
    el('p', {}, 'You have a lesson already? ', button('Open a lesson', open), ' or drop its file on this page.'),
    el('p', { class: 'shell-hint' }, 'What you write stays on this device. Sheaf sends nothing and keeps nothing unless you say so.'));
  return el('div', { class: 'shell-begin' }, about,
    el('section', { class: 'shell-begin-new', 'aria-labelledby': 'shell-begin-new' },
      el('h2', { id: 'shell-begin-new' }, 'New lesson'), patterns.element, stepChoice(app, () => undefined)));
}
