import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { expect, it, onTestFinished } from 'vitest';

const script = fileURLToPath(new URL('../../scripts/prepare.mjs', import.meta.url));

/** The script in a project that wants one package, of which a version is installed. */
async function missingWith(wanted: string, installed: string | undefined): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-prepare-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  mkdirSync(join(folder, 'scripts'));
  const copy = join(folder, 'scripts', 'prepare.mjs');
  cpSync(script, copy);
  const own = { dependencies: { scale: wanted } };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(own));
  if (installed !== undefined) {
    mkdirSync(join(folder, 'node_modules', 'scale'), { recursive: true });
    const lock = { packages: { 'node_modules/scale': { version: installed } } };
    writeFileSync(join(folder, 'node_modules', '.package-lock.json'), JSON.stringify(lock));
  }
  const { packagesMissing } = (await import(pathToFileURL(copy).href)) as {
    packagesMissing: () => boolean;
  };
  return packagesMissing();
}

it.each([
  ['none', '1.0.0', undefined, true],
  ['the one that is wanted', '1.0.0', '1.0.0', false],
  ['an older one, as after an update of Weighboat', '1.1.0', '1.0.0', true],
])('where %s is installed', async (_what, wanted, installed, missing) => {
  expect(await missingWith(wanted, installed)).toBe(missing);
});
