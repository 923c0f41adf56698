// Bundles tests and runs them with Node's own runner.
//
//   node tests/run.mjs unit             what needs no browser
//   node tests/run.mjs browser [PART]   in Chromium, on what `make web` has built
//   node tests/run.mjs bytes            PDFs beside those of the native program
//
// PART picks the files whose names have it.

import { build } from 'esbuild';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const tests = dirname(fileURLToPath(import.meta.url));
const web = resolve(tests, '..');
const [kind = 'unit', part = ''] = process.argv.slice(2);

const folder = join(tests, kind);
const files = readdirSync(folder)
  .filter((name) => name.endsWith('.test.ts') && name.includes(part)).sort();
if (files.length === 0) {
  console.error(`No test in web/tests/${kind} has "${part}" in its name.`);
  process.exit(1);
}

const made = join(web, '.made', kind);
rmSync(made, { recursive: true, force: true });
mkdirSync(made, { recursive: true });
await build({
  absWorkingDir: web, entryPoints: files.map((name) => join(folder, name)),
  outdir: made, outExtension: { '.js': '.mjs' }, bundle: true, format: 'esm',
  platform: 'node', target: 'node18', packages: 'external', sourcemap: 'inline',
  logLevel: 'warning',
});

function run(names) {
  return spawnSync(process.execPath,
    ['--enable-source-maps', '--test', '--test-concurrency=1', '--test-reporter=spec',
      ...names.map((name) => join(made, name.replace(/\.ts$/, '.mjs')))],
    { cwd: web, stdio: 'inherit', env: { ...process.env,
      // Never a browser of its own: Debian's is used.
      PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1' } }).status ?? 1;
}

// One after another: two browsers at once only slow each other down. What hands
// and eyes do takes time, and on a busy machine a browser may be late: a file
// that failed has one more try, and this is said. Nothing else has.
if (kind !== 'browser') process.exit(run(files));
const failed = files.filter((name) => run([name]) !== 0);
if (failed.length > 0) console.error(`Once more: ${failed.join(', ')}`);
process.exit(failed.some((name) => run([name]) !== 0) ? 1 : 0);
