// Scripts and styles into one text each, by esbuild.

import { build } from 'esbuild';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { inOrder } from './pack.mjs';

/** The npm packages that stand in what was bundled. */
function packagesIn(metafile) {
  const names = new Set();
  for (const input of Object.keys(metafile.inputs)) {
    const found = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input);
    if (found) names.add(found[1]);
  }
  return inOrder(names);
}

/** Another engine in place of the real one: for looking at the page alone. */
const otherEngine = (path) => ({
  name: 'other-engine',
  setup(build) {
    build.onResolve({ filter: /\/client\.js$/ }, () => ({ path }));
  },
});

/** A classic script: an inline one and a worker from a blob are no modules. With one
 * letter beyond Latin-1 a browser would keep all of it at two bytes a letter. */
export async function bundleScript(web, entry, { define = {}, engine }) {
  const made = await build({
    absWorkingDir: web, entryPoints: [entry], bundle: true, write: false,
    format: 'iife', target: ['chrome111', 'firefox115', 'safari17'], minify: true,
    charset: 'ascii', legalComments: 'none', metafile: true, define,
    logLevel: 'warning', outdir: 'unused',
    plugins: engine ? [otherEngine(engine)] : [],
  });
  const script = made.outputFiles.find((file) => file.path.endsWith('.js'));
  return { text: script.text, packages: packagesIn(made.metafile) };
}

/** All of src/style: base.css first, since it names the colours. */
export async function bundleStyle(web) {
  const folder = join(web, 'src/style');
  const names = existsSync(folder)
    ? inOrder(readdirSync(folder).filter((name) => name.endsWith('.css'))) : [];
  const ordered = ['base.css', ...names.filter((name) => name !== 'base.css')]
    .filter((name) => names.includes(name));
  const made = await build({
    absWorkingDir: web, bundle: true, write: false, minify: true, charset: 'utf8',
    target: ['chrome111', 'firefox115', 'safari17'], logLevel: 'warning',
    stdin: { contents: ordered.map((name) => `@import "./${name}";`).join('\n'),
      resolveDir: folder, loader: 'css' },
  });
  return made.outputFiles[0].text;
}
