/** Which paper a teacher is likely to have. */

export type Paper = '' | 'letter' | 'a4';

/** Regions where letter is the paper of offices: Unicode CLDR, supplemental
 * data "measurementData", paperSize US-Letter (the list is from memory of it). */
const letterRegions = new Set([
  'BZ', 'CA', 'CL', 'CO', 'CR', 'GT', 'MX', 'NI', 'PA', 'PH', 'PR', 'SV', 'US', 'VE',
]);

/** A first guess by the browser's language: "en-US" → letter, "en-GB" → a4. */
export function likelyPaper(language: string): 'letter' | 'a4' {
  try {
    const region = new Intl.Locale(language).maximize().region ?? '';
    return letterRegions.has(region) ? 'letter' : 'a4';
  } catch {
    return 'a4';
  }
}

export const papers: readonly { paper: Paper; name: string }[] = [
  { paper: 'letter', name: 'US letter' },
  { paper: 'a4', name: 'A4' },
  { paper: '', name: 'As the layout says' },
];
