/**
 * `npm start`: from a fresh clone to the main job. Installs and builds what is missing, then shows the
 * demonstration experiment as its bench saw it. `npm start -- FILE` shows another.
 */
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildIfStale, bundle, installIfMissing, root, say, stop } from './prepare.mjs';

const RECORD = /\.(csv|json)$/i;

/** The folder that examples/demo names, else the first. */
function demoFolder() {
  const examples = join(root, 'examples');
  if (!existsSync(examples)) stop('There is no examples folder here. Try: npm start -- FILE', 2);
  const named = join(examples, 'demo');
  if (existsSync(named) && statSync(named).isFile())
    return join(examples, readFileSync(named, 'utf8').trim());
  const first = readdirSync(examples, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()[0];
  if (first === undefined) stop('The examples folder is empty. Try: npm start -- FILE', 2);
  return join(examples, first);
}

/** The document of an experiment's folder, and the first bench record that lies with it. */
function documentAndRecord(path) {
  if (!existsSync(path)) stop(`There is no file or folder ${path}.`, 2);
  if (statSync(path).isFile()) return { document: path };
  const files = filesUnder(path);
  const document =
    files.find((file) => /^experiment\.md$/i.test(relative(path, file))) ??
    files.find((file) => /\.md$/i.test(file) && !/readme/i.test(file));
  if (document === undefined) stop(`No experiment (a .md file) lies in ${path}.`, 2);
  const record = files.find(
    (file) => RECORD.test(file) && /(bench|record)/i.test(relative(path, file)),
  );
  return { document, record };
}

function filesUnder(folder, depth = 0) {
  const entries = readdirSync(folder, { withFileTypes: true }).sort((a, b) =>
    a.name < b.name ? -1 : 1,
  );
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(folder, entry.name));
  if (depth > 0) return files;
  const folders = entries.filter((entry) => entry.isDirectory() && entry.name !== 'golden');
  return [...files, ...folders.flatMap((entry) => filesUnder(join(folder, entry.name), depth + 1))];
}

installIfMissing();
await buildIfStale();
const [given, ...rest] = process.argv.slice(2);
// npm moves to the project's folder; a path is meant from where the user stands.
const here = process.env.INIT_CWD ?? process.cwd();
const { document, record } = documentAndRecord(given ? resolve(here, given) : demoFolder());
const named = (path) => relative(process.cwd(), path) || path;
say(`Reading ${named(document)}${record ? ` with the bench record ${named(record)}` : ''}`);
const { main, processIo } = await import(pathToFileURL(bundle).href);
const recordArgs = record ? ['--record', named(record)] : [];
process.exitCode = await main(['overview', named(document), ...recordArgs, ...rest], processIo());
