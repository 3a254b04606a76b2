import { build } from 'esbuild';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import setup from '../test/browser/setup.ts';
import { root } from './files.ts';
import type { SizeItem } from './item.ts';

const web = join(root, 'dist', 'web');

/** What the design allows: before a page's own needs, and the whole bench record. */
const SHELL_kB = 200;
const BENCH_kB = 120;

const SCRIPT = String.raw`[\w$.-]+\.js`;
const IN_PAGE = new RegExp(`<(?:script|link rel="modulepreload")[^>]*?/assets/(${SCRIPT})`, 'g');
const AT_ONCE = new RegExp(`(?:from|\\bimport)\\s*["']\\./(${SCRIPT})["']`, 'g');
const LATER = new RegExp(`\\bimport\\(\\s*["'\`]\\./(${SCRIPT})["'\`]`, 'g');

const namesIn = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map(([, name]) => name!);
const textOf = (script: string): string => readFileSync(join(web, 'assets', script), 'utf8');

/** These scripts and all that they import, with `later` also what they import only at need. */
function closure(scripts: readonly string[], later = false, found = new Set<string>()) {
  for (const script of scripts) {
    if (found.has(script)) continue;
    found.add(script);
    const text = textOf(script);
    closure(namesIn(text, AT_ONCE), later, found);
    if (later) closure(namesIn(text, LATER), later, found);
  }
  return found;
}

/** As the server sends them to whoever does not take brotli. */
const size_kB = (scripts: Iterable<string>): number =>
  [...scripts].reduce(
    (sum, script) => sum + readFileSync(join(web, 'assets', `${script}.gz`)).length / 1000,
    0,
  );

async function reactAlone_kB(): Promise<number> {
  const { outputFiles } = await build({
    stdin: { contents: "export * from 'react-dom/client'", resolveDir: root },
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    define: { 'process.env.NODE_ENV': '"production"' },
    logLevel: 'error',
  });
  return gzipSync(outputFiles[0]!.contents, { level: 9 }).length / 1000;
}

const inPage = (page: string) => namesIn(readFileSync(join(web, page), 'utf8'), IN_PAGE);
const kB = (size: number) => `${size.toFixed(0)} kB`;

/** Each page with what it brings beyond the scripts that are there already. */
function pagesText(shell: ReadonlySet<string>): string {
  const pages = [...shell].flatMap((script) => namesIn(textOf(script), LATER));
  const sizes = [...new Set(pages)].map((page) => {
    const own = [...closure([page])].filter((script) => !shell.has(script));
    return { name: page.replace(/-[\w$-]{8}\.js$/, ''), own_kB: size_kB(own) };
  });
  const said = sizes
    .sort((a, b) => b.own_kB - a.own_kB)
    .map(({ name, own_kB }) => `${name} ${kB(own_kB)}`);
  return `Fetched when a page is opened, besides: ${said.join(', ')}.`;
}

/** The scripts of the pages as they are built, gzip. */
export async function scriptsSize(): Promise<SizeItem[]> {
  await setup();
  const baseline = { what: 'react-dom alone, minified', size_kB: await reactAlone_kB() };
  const shell = closure(inPage('index.html'));
  const bench = closure(inPage('bench.html'), true);
  return [
    {
      what: 'Scripts before a page’s own needs, gzip (the shelf and the sign-in are among them)',
      size_kB: size_kB(shell),
      budget_kB: SHELL_kB,
      baseline,
      remarks: [pagesText(shell)],
    },
    {
      what: 'Scripts of the bench record in all, gzip',
      size_kB: size_kB(bench),
      budget_kB: BENCH_kB,
      baseline,
      remarks: [`${bench.size} files.`],
    },
  ];
}
