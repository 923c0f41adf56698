/** The native program that the page is held against. Tests run with web/ as their
 * folder; make names the program as it is seen from the one above. */

import { resolve } from 'node:path';

export const top = resolve('..');
export const program = resolve(top, process.env['SHEAF'] ?? 'build/sheaf');
