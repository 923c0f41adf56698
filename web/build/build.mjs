// Builds the browser edition: what a web server hands out, and sheaf.html, which
// is all of it in one file. The same sources give the same bytes.
//
//   node build/build.mjs --out FOLDER --module sheaf.wasm --share FOLDER
//     [--guide FOLDER]
//
// `make web` calls it. --share is what comes with Sheaf: the compiled word list,
// fonts and layouts.

import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundleScript, bundleStyle } from './bundle.mjs';
import { licences } from './licences.mjs';
import { filesIn, pack, packFolder, squeeze } from './pack.mjs';
import { hashOf, servedPage, singlePage } from './page.mjs';
import { checkSizes } from './sizes.mjs';

const web = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const { values: given } = parseArgs({ options: {
  out: { type: 'string' }, module: { type: 'string' }, share: { type: 'string' },
  guide: { type: 'string' }, engine: { type: 'string' },
} });

function need(path, what) {
  if (!path || !existsSync(path)) {
    console.error(`${what} is missing${path ? ` (${path})` : ''}.`);
    process.exit(1);
  }
  return path;
}

/** The module reads nothing else of share/sheaf. */
function shippedData(share) {
  const wanted = filesIn(share).filter((path) =>
    path === 'phonics.bin' || /^fonts\/.*\.(ttf|tsv|txt)$/.test(path) ||
    /^layouts\/.*\.yaml$/.test(path));
  return pack(wanted.map((path) => [path, readFileSync(join(share, path))]), { tables: true });
}

const share = need(given.share, 'What comes with Sheaf');
need(join(share, 'phonics.bin'), 'The word list');
const module = readFileSync(need(given.module, 'The module'));
const out = resolve(given.out ?? 'out/web');

// ---- what there is ---------------------------------------------------------
const app = await bundleScript(web, 'src/main.ts', { engine: given.engine });
const worker = await bundleScript(web, 'src/engine/worker.ts', {});
const taker = await bundleScript(web, 'src/engine/taker.ts', {});
const style = await bundleStyle(web);
const icon = readFileSync(join(web, 'src/icon.svg'));
const page = readFileSync(join(web, 'src/index.html'), 'utf8');

const notices = Buffer.from(licences(web, [...app.packages, ...worker.packages]));
const parts = {
  module: squeeze(module),
  data: squeeze(shippedData(share)),
  worker: squeeze(Buffer.from(worker.text)),
  licences: squeeze(notices),
};
if (given.guide && existsSync(join(given.guide, 'index.html'))) {
  parts.guide = squeeze(packFolder(given.guide));
} else {
  console.log('The guide is not there (make guide); the page is made without it.');
}

const digest = createHash('sha256');
for (const bytes of [page, icon, app.text, taker.text, style, ...Object.values(parts)]) {
  digest.update(bytes);
}
const version = digest.digest('hex').slice(0, 12);

// ---- as it is served -------------------------------------------------------
const files = {
  'app.js': Buffer.from(app.text),
  'style.css': Buffer.from(style),
  'icon.svg': icon,
  'sheaf.webmanifest': readFileSync(join(web, 'src/sheaf.webmanifest')),
};
const places = { version, single: false, parts: {} };
for (const [name, bytes] of Object.entries(parts)) {
  // No ending that a server would take for a kind of its own, and unpack.
  const file = `sheaf-${name}.bin`;
  files[file] = bytes;
  places.parts[name] = { file, integrity: hashOf(bytes) };
}
files['index.html'] = Buffer.from(servedPage(page, files, places));
const kept = Object.entries(files).map(([path, bytes]) => [path, hashOf(bytes)]);
const keeper = await bundleScript(web, 'src/sw.ts', {
  define: { SHEAF_VERSION: JSON.stringify(version), SHEAF_FILES: JSON.stringify(kept) },
});
files['sw.js'] = Buffer.from(keeper.text);

// ---- in one file -----------------------------------------------------------
files['sheaf.html'] = Buffer.from(singlePage(page,
  { app: app.text, taker: taker.text, style, icon }, parts, version));
files['licences.txt'] = notices;

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
for (const [path, bytes] of Object.entries(files)) writeFileSync(join(out, path), bytes);
console.log(`Version ${version}`);
process.exitCode = checkSizes(files) ? 0 : 1;
