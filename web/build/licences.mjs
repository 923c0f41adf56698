// The notices that go with every copy: Sheaf's own, those of its data and fonts,
// of the libraries in the module and of the npm packages that are bundled.

import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { inOrder } from './pack.mjs';

// What the module and the word list are made from, by Debian packages: their
// notices are those of the sources (web/wasm/sources.tsv), word for word.
const debian = ['festlex-cmu', 'scowl', 'wordnet-base', 'libclang-rt-19-dev-wasm32',
  'wasi-libc', 'zlib1g-dev', 'libpng-dev', 'libjpeg62-turbo-dev', 'libdeflate-dev',
  'libutf8proc-dev', 'libhpdf-dev', 'libyaml-cpp-dev', 'libfmt-dev',
  'libharfbuzz-dev', 'libfreetype-dev', 'libcli11-dev', 'nlohmann-json3-dev'];

function noticeOfLibrary(name) {
  const file = `/usr/share/doc/${name}/copyright`;
  if (!existsSync(file)) {
    throw new Error(`The notices of ${name} are missing: run make web-deps`);
  }
  return `${name}\n\n${readFileSync(file, 'utf8').trim()}`;
}

function noticeOfPackage(web, name) {
  const folder = join(web, 'node_modules', name);
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  if (!file) throw new Error(`${name} comes without its licence`);
  return `${name} ${about.version} (${about.license})\n\n` +
    readFileSync(join(folder, file), 'utf8').trim();
}

/** packages: names of npm packages. */
export function licences(web, packages) {
  const own = ['LICENSE', 'LICENSES.md', 'fonts/OFL.txt', 'fonts/NotoEmoji-OFL.txt']
    .map((path) => readFileSync(join(web, '..', path), 'utf8').trim());
  const texts = [...own, ...debian.map(noticeOfLibrary),
    ...inOrder(new Set(packages)).map((name) => noticeOfPackage(web, name))];
  return texts.map((text) => `${text}\n`).join(`\n${'-'.repeat(72)}\n\n`);
}
