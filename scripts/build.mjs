/**
 * Builds what runs: the command line in `dist/weighboat.mjs`, with what only some commands need in
 * chunks beside it, and the pages in `dist/web`.
 */
import { createHash } from 'node:crypto';
import { build as bundleWith } from 'esbuild';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import { bundle, dist, root, web } from './prepare.mjs';

/** Tables as text that is parsed at need are faster to load than as object literals. */
const tablesAsText = {
  name: 'tables-as-text',
  setup(build) {
    build.onLoad({ filter: /facts[\\/][^\\/]+\.json$/ }, async ({ path }) => {
      const text = JSON.stringify(JSON.parse(await readFile(path, 'utf8')));
      return { contents: `export default JSON.parse(${JSON.stringify(text)});`, loader: 'js' };
    });
  },
};

/** Left outside: what is native, what loads files of its own, and what only a server loads. */
const PACKAGES = ['@rdkit/rdkit', 'better-sqlite3', 'pg', 'fastify', '@fastify/*'];

const REQUIRE =
  "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);";

/** A chunk may be read by a process that started before this build; after a while none does. */
const CHUNK_LIFE_ms = 600_000;

export async function buildCommandLine() {
  // Written beside and then renamed, the entry last: a run that starts meanwhile never reads half.
  const fresh = join(dist, `.bundle-${process.pid}`);
  await bundleWith({
    absWorkingDir: root,
    entryPoints: { [basename(bundle, '.mjs')]: join(root, 'src', 'cli', 'main.ts') },
    outdir: fresh,
    outExtension: { '.js': '.mjs' },
    chunkNames: 'chunks/[name]-[hash]',
    splitting: true,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: PACKAGES,
    legalComments: 'none',
    // Whitespace and names are kept, so that a stack trace can be read.
    minifySyntax: true,
    logLevel: 'error',
    plugins: [tablesAsText],
    banner: { js: REQUIRE },
  });
  const chunks = join(dist, 'chunks');
  mkdirSync(chunks, { recursive: true });
  const made = readdirSync(join(fresh, 'chunks'));
  for (const name of made) renameSync(join(fresh, 'chunks', name), join(chunks, name));
  renameSync(join(fresh, basename(bundle)), bundle);
  for (const name of readdirSync(chunks)) {
    const path = join(chunks, name);
    if (!made.includes(name) && Date.now() - statSync(path).mtimeMs > CHUNK_LIFE_ms) rmSync(path);
  }
  rmSync(fresh, { recursive: true, force: true });
}

export async function buildPages() {
  // A test runner that builds says "test", and Vite would then build React's development version.
  process.env.NODE_ENV = 'production';
  const { build } = await import('vite');
  const fresh = join(dist, `.web-${process.pid}`);
  await build({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'error',
    build: { outDir: fresh, emptyOutDir: true, manifest: 'manifest.json' },
  });
  await buildServiceWorker(fresh);
  rmSync(join(fresh, 'manifest.json'));
  await compress(fresh);
  takePlace(fresh, web);
}

/** A folder takes the place of another, which a build that runs at the same time may do as well. */
function takePlace(fresh, place) {
  const old = join(dist, `.old-${process.pid}`);
  for (let tries = 0; ; tries++)
    try {
      if (existsSync(place)) renameSync(place, old);
      renameSync(fresh, place);
      break;
    } catch (error) {
      if (tries > 5 || !['ENOTEMPTY', 'EEXIST', 'ENOENT', 'EPERM'].includes(error.code))
        throw error;
    } finally {
      rmSync(old, { recursive: true, force: true });
    }
}

/**
 * The service worker stands at the root under a name that never changes. It is told which files the
 * bench record consists of, and a name that changes with any of them.
 */
async function buildServiceWorker(folder) {
  const manifest = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8'));
  const files = filesOf(manifest, 'bench.html')
    .map((file) => `/${file}`)
    .sort();
  const page = readFileSync(join(folder, 'bench.html'));
  const version = createHash('sha256').update(page).update(files.join()).digest('hex').slice(0, 16);
  await bundleWith({
    absWorkingDir: root,
    entryPoints: { sw: join(root, 'src', 'web', 'bench', 'sw.ts') },
    outdir: folder,
    bundle: true,
    minify: true,
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
    legalComments: 'none',
    logLevel: 'error',
    define: { BENCH_FILES: JSON.stringify(files), BENCH_VERSION: JSON.stringify(version) },
  });
}

/** An entry's scripts, style sheets and fonts, with those of all that it imports, be it later. */
function filesOf(manifest, entry, seen = new Set()) {
  const chunk = manifest[entry];
  if (chunk === undefined || seen.has(entry)) return [];
  seen.add(entry);
  return [
    ...new Set([
      chunk.file,
      ...(chunk.css ?? []),
      ...(chunk.assets ?? []),
      ...[...(chunk.imports ?? []), ...(chunk.dynamicImports ?? [])].flatMap((name) =>
        filesOf(manifest, name, seen),
      ),
    ]),
  ];
}

const brotli = promisify(brotliCompress);
const zip = promisify(gzip);
const TEXT = /\.(?:js|css|svg|json)$/;

/** Compressed once here and not for every reader. The pages are not: each gets a nonce of its own. */
async function compress(folder) {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && TEXT.test(entry.name))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name));
  await Promise.all(
    files.map(async (file) => {
      const bytes = await readFile(file);
      const quality = { [constants.BROTLI_PARAM_QUALITY]: 9 };
      await writeFile(`${file}.br`, await brotli(bytes, { params: quality }));
      await writeFile(`${file}.gz`, await zip(bytes, { level: 9 }));
    }),
  );
}

export async function build() {
  await buildCommandLine();
  await buildPages();
}

if (process.argv[1] && import.meta.filename === process.argv[1]) await build();
