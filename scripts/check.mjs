/**
 * `npm run check`: everything that can be seen without running the tests. Each part runs even when one
 * before it failed, so that one run shows all there is to mend.
 */
import { spawnSync } from 'node:child_process';
import { installIfMissing, programOf, root, say } from './prepare.mjs';

installIfMissing();

const tool = (name, ...args) => [programOf(name), ...args];
const script = (file, ...args) => [programOf('tsx'), `scripts/${file}`, ...args];
const typescript = programOf('typescript', 'tsc');

const parts = {
  format: tool('prettier', '--check', '--log-level', 'warn', '.'),
  lint: tool('oxlint', '--type-aware', '--deny-warnings', '--format', 'unix'),
  types: [typescript, '--noEmit', '--pretty', 'false'],
  // The core again without the browser's and Node's types: it may know neither.
  core: [typescript, '--noEmit', '--pretty', 'false', '--project', 'tsconfig.core.json'],
  layers: script('layers.ts'),
  facts: script('facts.ts', '--check'),
  docs: script('docs.ts', '--check'),
};

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in parts));
if (unknown.length > 0) {
  say(`No part is called ${unknown.join(', ')}. There are: ${Object.keys(parts).join(', ')}.`);
  process.exit(2);
}

const failed = [];
for (const [name, command] of Object.entries(parts)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const begun = performance.now();
  const done = spawnSync(process.execPath, command, {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  const time_s = ((performance.now() - begun) / 1000).toFixed(1);
  const ok = done.status === 0;
  if (!ok) failed.push(name);
  say(`${ok ? 'ok    ' : 'FAILED'}  ${name.padEnd(7)} ${time_s.padStart(6)} s`);
  if (!ok) say(`${done.stdout ?? ''}${done.stderr ?? ''}${done.error?.message ?? ''}`.trimEnd());
}
say(failed.length === 0 ? 'All is well.' : `To mend: ${failed.join(', ')}.`);
process.exitCode = failed.length === 0 ? 0 : 1;
