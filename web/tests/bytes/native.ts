/** What the native program makes of the lessons that ship, in a folder of its own. */

import { createHash } from 'node:crypto';
import { execFile } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { program, top } from '../support/program.js';

export const hashOf = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

export function filesBelow(folder: string): string[] {
  return readdirSync(folder).sort().flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesBelow(path) : [path];
  });
}

/** One run of the program, with the same arguments for both. */
export interface Work { args: string[]; lesson?: string }
export interface Made { code: number; out: string; err: string; pdfs: Record<string, string> }

const lessonsOf = (folder: string): string[] => readdirSync(join(top, folder))
  .filter((name) => name.endsWith('.yaml') && !/class|sequence|placement/.test(name))
  .sort().map((name) => `${folder}/${name}`);

/** Each lesson by itself, every class, and pages made from records. */
export function allWork(): Work[] {
  const lessons = ['lessons', 'lessons/year', 'lessons/second-year', 'lessons/demo-term',
    'lessons/demo-term/probes'].flatMap(lessonsOf);
  const term = 'lessons/demo-term';
  return [
    ...lessons.map((lesson) => ({ lesson, args: ['build', lesson, '--out', 'out'] })),
    { args: ['build', lessons[0] ?? '', '--out', 'out/a4', '--paper', 'a4'] },
    { args: ['build', '--class', 'lessons/class.yaml', '--out', 'out/class'] },
    { args: ['build', `${term}/week-11-oo.yaml`, '--class', `${term}/class.yaml`,
      '--out', 'out/term'] },
    { args: ['mark', `${term}/records`, '--pdf', 'out/marks.pdf'] },
    ...['', 'home', 'meeting'].map((reader) => ({ args: ['progress', `${term}/records`,
      `${term}/probe-records`, ...(reader ? ['--for', reader] : []),
      '--pdf', `out/progress${reader}.pdf`] })),
  ];
}

/** The teacher's files of these runs, by path as the page has them. */
export function teachersFiles(): [path: string, bytes: Uint8Array][] {
  return filesBelow(join(top, 'lessons')).map((file) =>
    [`/${relative(top, file)}`, readFileSync(file)]);
}

export class Native {
  readonly folder = mkdtempSync(join(tmpdir(), 'sheaf-bytes-'));
  constructor() {
    cpSync(join(top, 'lessons'), join(this.folder, 'lessons'), { recursive: true });
  }

  run(args: string[]): Promise<Made> {
    const out = join(this.folder, 'out');
    rmSync(out, { recursive: true, force: true });
    return new Promise((settle, fail) => {
      execFile(program, args, { cwd: this.folder, maxBuffer: 1 << 26 },
        (fault, stdout, stderr) => {
          const code = fault ? fault.code : 0;
          if (typeof code !== 'number') { fail(fault as Error); return; }
          const pdfs: Record<string, string> = {};
          let files: string[] = [];
          try { files = filesBelow(out); } catch { /* it made nothing */ }
          for (const file of files) {
            if (!file.endsWith('.pdf')) continue;
            pdfs[`/${relative(this.folder, file)}`] = hashOf(readFileSync(file));
          }
          settle({ code, out: stdout, err: stderr, pdfs });
        });
    });
  }

  end(): void { rmSync(this.folder, { recursive: true, force: true }); }
}
