/** PDFs as other programs read them. */

import { execFileSync } from 'node:child_process';

/** Throws where qpdf finds a fault; a warning is one. */
export function checkPdf(path: string): void {
  execFileSync('qpdf', ['--check', path], { stdio: 'pipe' });
}

export function textOfPdf(path: string): string {
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
}

export function pagesOfPdf(path: string): number {
  return Number(execFileSync('qpdf', ['--show-npages', path], { encoding: 'utf8' }));
}

/** In points. */
export function paperOfPdf(path: string): [width: number, height: number] {
  const found = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(
    execFileSync('pdfinfo', [path], { encoding: 'utf8' }));
  return [Number(found?.[1]), Number(found?.[2])];
}
