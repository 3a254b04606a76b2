import packed from '@sparticuz/chromium';
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Once before all browser tests: what is tested is built, and the browser is unpacked. */
export default async function setup(): Promise<void> {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const program = "await (await import('./scripts/prepare.mjs')).buildIfStale()";
  const { status } = spawnSync(process.execPath, ['--input-type=module', '-e', program], {
    cwd: root,
    stdio: 'inherit',
  });
  if (status !== 0) throw new Error('The build failed, so there is nothing to test in a browser.');
  await packed.executablePath();
}
