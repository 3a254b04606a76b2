/**
 * The rule of the layers: data flows down the list of folders, and an import points only to the same
 * folder or to one before it. The core touches no machine: no Node module and no package, zod apart.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface SourceFile {
  /** From the project's folder, with forward slashes. */
  readonly path: string;
  readonly source: string;
}

export interface LayerProblem {
  readonly path: string;
  readonly line: number;
  readonly message: string;
}

/** In the order of the data flow. */
export const LAYERS = [
  'src/core/diagnostic.ts',
  'src/core/facts',
  'src/core/quantity',
  'src/core/chemistry',
  'src/core/evidence',
  'src/core/experiment',
  'src/core/ledger',
  'src/core/enact',
  'src/core/record',
  'src/core/report',
  'src/structures',
  'src/picture',
  'src/wire',
  'src/web',
  'src/store',
  'src/server',
  'src/cli',
] as const;

/** Which files of the core may import which package. */
const PACKAGES: readonly { readonly file: RegExp; readonly name: string }[] = [
  { file: /^src\/core\/(record|experiment)\/(schema|entry)\.ts$/, name: 'zod' },
  { file: /^src\/core\/evidence\/(?:[^/]+\/)?schema\.ts$/, name: 'zod' },
];

/** Packages that only a server can run, or that are too much for a browser. */
const NOT_FOR_PAGES = /^(?:fastify|@fastify\/|better-sqlite3$|pg$|kysely$|@rdkit\/|zod$)/;

const IMPORT =
  /(?:^|[;\s}])(?:import|export)\s+(type\s+)?(?:[\w$*{},\s]+?\s+from\s+)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/g;

/** Tests, and what only tests use. */
const TEST = /\.test\.tsx?$|\/testing(?:\.tsx?$|\/)/;

const isOf = (folder: string, path: string): boolean => path.startsWith(`${folder}/`);

export function layerOf(path: string): number {
  return LAYERS.findIndex((layer) => path === layer || isOf(layer, path));
}

export interface Import {
  readonly line: number;
  readonly target: string;
  /** Gone before anything runs. */
  readonly isType: boolean;
}

/** Every import of a source with the line that it stands on. Comments are blanked first. */
export function importsOf(source: string): Import[] {
  const blank = (text: string) => text.replace(/[^\n]/g, ' ');
  const code = source.replace(/\/\*[\s\S]*?\*\//g, blank).replace(/^\s*\/\/.*$/gm, blank);
  return [...code.matchAll(IMPORT)].map((match) => {
    const target = match[2] ?? match[3] ?? '';
    const at = match.index + match[0].lastIndexOf(target);
    return { target, line: code.slice(0, at).split('\n').length, isType: match[1] !== undefined };
  });
}

function problemOf(path: string, { target, isType }: Import): string | undefined {
  const isTest = TEST.test(path);
  if (!target.startsWith('.')) return packageProblemOf(path, target, isTest);
  const reached = posix.normalize(posix.join(posix.dirname(path), target));
  const own = layerOf(path);
  const theirs = layerOf(reached);
  if (theirs < 0) return isTest ? undefined : `${reached} belongs to no layer of scripts/layers.ts`;
  if (theirs > own)
    return `${LAYERS[own]} comes before ${LAYERS[theirs]} and may not import ${reached}`;
  if (isTest || !isOf('src/web', path)) return undefined;
  if (isOf('src/structures', reached)) return `a page may not bring ${reached} into the browser`;
  if (isOf('src/wire', reached) && !isType)
    return `a page takes only types from ${reached}: its schemas would bring zod with them`;
  return undefined;
}

function packageProblemOf(path: string, target: string, isTest: boolean): string | undefined {
  if (isTest) return undefined;
  if (isOf('src/web', path))
    return NOT_FOR_PAGES.test(target) || isBuiltin(target)
      ? `a page may not bring ${target} into the browser`
      : undefined;
  if (!isOf('src/core', path)) return undefined;
  if (PACKAGES.some(({ file, name }) => name === target && file.test(path))) return undefined;
  return `the core imports neither Node modules nor packages, so not ${target}`;
}

/** What breaks the rule. Pure, so that a test can show that it does find what it should. */
export function layerProblems(files: readonly SourceFile[]): LayerProblem[] {
  const problems: LayerProblem[] = [];
  for (const { path, source } of files) {
    if (layerOf(path) < 0) {
      problems.push({ path, line: 1, message: 'stands in no layer of scripts/layers.ts' });
      continue;
    }
    for (const one of importsOf(source)) {
      const message = problemOf(path, one);
      if (message !== undefined) problems.push({ path, line: one.line, message });
    }
  }
  return problems;
}

function sourcesUnder(root: string, folder: string): SourceFile[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = posix.join(folder, entry.name);
    if (entry.isDirectory()) return sourcesUnder(root, path);
    if (!/\.(?:m?ts|tsx)$/.test(entry.name)) return [];
    return [{ path, source: readFileSync(join(root, path), 'utf8') }];
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const files = sourcesUnder(fileURLToPath(new URL('..', import.meta.url)), 'src');
  const problems = layerProblems(files);
  for (const { path, line, message } of problems) console.error(`${path}:${line}: ${message}`);
  if (problems.length > 0) process.exit(1);
  console.log(`${files.length} files keep to their layers`);
}
