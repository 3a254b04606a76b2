/**
 * Bundles the command line into one file, so that a cold start reads one file and no TypeScript.
 * The structure toolkit (a few megabytes of WebAssembly) stays outside and is loaded by what draws.
 */
import { build as bundleWith } from 'esbuild';
import { existsSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { bundle, root } from './prepare.mjs';

/** Tables as text that is parsed at need are faster to load than as object literals. */
const tablesAsText = {
  name: 'tables-as-text',
  setup(build) {
    build.onLoad({ filter: /facts[\\/][^\\/]+\.json$/ }, async ({ path }) => {
      const { readFile } = await import('node:fs/promises');
      const text = JSON.stringify(JSON.parse(await readFile(path, 'utf8')));
      return { contents: `export default JSON.parse(${JSON.stringify(text)});`, loader: 'js' };
    });
  },
};

export async function build() {
  // Written beside and then renamed: a second run that starts meanwhile never reads half a bundle.
  const fresh = `${bundle}.${process.pid}`;
  await bundleWith({
    absWorkingDir: root,
    entryPoints: [join(root, 'src', 'cli', 'main.ts')],
    outfile: fresh,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['@rdkit/rdkit'],
    legalComments: 'none',
    // Whitespace and names are kept, so that a stack trace can be read.
    minifySyntax: true,
    logLevel: 'error',
    plugins: [tablesAsText],
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
    },
  });
  if (existsSync(fresh)) renameSync(fresh, bundle);
}

if (process.argv[1] && import.meta.filename === process.argv[1]) await build();
