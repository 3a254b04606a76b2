/**
 * What has to be there before anything else can run, in plain Node so that a fresh clone needs nothing:
 * the packages, and the bundle. Used by start, test, check and bin/weighboat.mjs.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));
export const dist = join(root, 'dist');
/** The command line. */
export const bundle = join(dist, 'weighboat.mjs');
/** The pages. */
export const web = join(dist, 'web');

/** What the builder of the pages asks for; major and minor. */
const OLDEST_NODE = [20, 19];

/** Says what is being done, on the error stream, so that answers can be piped. */
export function say(text) {
  process.stderr.write(`${text}\n`);
}

/** Stops with a sentence rather than with a stack of calls. */
export function stop(text, code = 1) {
  say(text);
  process.exit(code);
}

export function requireNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  const [oldestMajor, oldestMinor] = OLDEST_NODE;
  if (major < oldestMajor || (major === oldestMajor && minor < oldestMinor))
    stop(`Weighboat needs Node ${OLDEST_NODE.join('.')} or newer; this is ${process.version}.`, 2);
}

/**
 * Runs a program in the project's folder and gives its exit code. Windows needs a shell to find npm,
 * and only npm is ever started so; everything else is started as `node file`.
 */
export function run(command, args, options = {}) {
  const shell = process.platform === 'win32' && command === 'npm';
  const done = spawnSync(command, args, { cwd: root, stdio: 'inherit', shell, ...options });
  if (done.error) say(`${command} could not be started: ${done.error.message}`);
  return done.status ?? 1;
}

/** The path of an installed package's own program, to be started with this same Node. */
export function programOf(packageName, command = packageName) {
  const folder = join(root, 'node_modules', packageName);
  const { bin } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  return join(folder, typeof bin === 'string' ? bin : bin[command]);
}

/**
 * Is a package not there, or there in another version than is wanted now? npm leaves a copy of the
 * lock file behind when an installation is complete.
 */
export function packagesMissing() {
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return true;
  const { packages } = JSON.parse(readFileSync(installed, 'utf8'));
  return wantedPackages().some(
    ([name, version]) =>
      packages[`node_modules/${name}`]?.version !== version ||
      !existsSync(join(root, 'node_modules', name)),
  );
}

function wantedPackages() {
  const own = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return Object.entries({ ...own.dependencies, ...own.devDependencies });
}

export function installIfMissing() {
  requireNode();
  if (!packagesMissing()) return;
  say(
    'Installing the packages that package-lock.json names (once, a minute or two; needs the network) ...',
  );
  const code = run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    stdio: ['ignore', 2, 2],
  });
  if (code !== 0)
    stop('The packages could not be installed. Is the network there? Then: npm ci', code);
}

/** When the newest file below a folder was written; tests are no part of what is built. */
export function newestSource_ms(folder = join(root, 'src')) {
  let newest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) newest = Math.max(newest, newestSource_ms(path));
    else if (!/\.test\.tsx?$/.test(entry.name)) newest = Math.max(newest, statSync(path).mtimeMs);
  }
  return newest;
}

/** Each part of the program with what it is made from. */
const PARTS = [
  {
    name: 'the command line',
    made: bundle,
    folders: ['core', 'structures', 'picture', 'wire', 'store', 'server', 'cli'],
    files: ['package.json', 'scripts/build.mjs'],
    build: (scripts) => scripts.buildCommandLine(),
  },
  {
    name: 'the pages',
    made: join(web, 'index.html'),
    folders: ['core', 'picture', 'wire', 'web'],
    files: ['package.json', 'scripts/build.mjs', 'vite.config.ts', 'src/server/nonce.ts'],
    build: (scripts) => scripts.buildPages(),
  },
];

function isStale({ made, folders, files }) {
  if (!existsSync(made)) return true;
  const built_ms = statSync(made).mtimeMs;
  return (
    folders.some((folder) => newestSource_ms(join(root, 'src', folder)) > built_ms) ||
    files.some((file) => statSync(join(root, file)).mtimeMs > built_ms)
  );
}

export async function buildIfStale() {
  const stale = PARTS.filter(isStale);
  if (stale.length === 0) return;
  say(`Building ${stale.map(({ name }) => name).join(' and ')} ...`);
  const scripts = await import(pathToFileURL(join(root, 'scripts', 'build.mjs')).href);
  try {
    for (const part of stale) await part.build(scripts);
  } catch (error) {
    stop(`The build failed: ${error.message}`);
  }
}
