/**
 * Chromium from the npm registry. It comes packed, and with the few shared libraries that a bare
 * system lacks; both are unpacked once into the temporary folder, under the version's own name.
 */
import packed from '@sparticuz/chromium';
import { chromium } from 'playwright-core';
import type { Browser } from 'playwright-core';
import { execFileSync, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';

// The package's own args start it in a single process, which does not last through a test.
const ARGS = ['--no-sandbox', '--disable-gpu', '--disable-background-networking'];

/** A browser, or an error that says which packages the system has to have. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = await packed.executablePath();
  const missing = missingLibraries(executablePath);
  if (missing.length === 0) return chromium.launch({ executablePath, args: ARGS });
  const LD_LIBRARY_PATH = unpackLibraries();
  const still = missingLibraries(executablePath, { LD_LIBRARY_PATH });
  if (still.length > 0)
    throw new Error(
      `Chromium needs ${still.join(', ')}. On Debian: apt-get install -y libnss3 libnspr4`,
    );
  return chromium.launch({
    executablePath,
    args: ARGS,
    env: { ...(process.env as Record<string, string>), LD_LIBRARY_PATH },
  });
}

function missingLibraries(program: string, env: Record<string, string> = {}): string[] {
  const { stdout } = spawnSync('ldd', [program], {
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  return [...(stdout ?? '').matchAll(/^\s*(\S+) => not found/gm)].map((match) => match[1]!);
}

/** Unpacked beside and renamed, since several test files may come here at once. */
function unpackLibraries(): string {
  const folder = dirname(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium')));
  const { version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    version: string;
  };
  const goal = join(tmpdir(), `chromium-libraries-${version}`);
  const libraries = join(goal, 'al2023', 'lib');
  if (existsSync(libraries)) return libraries;
  const fresh = mkdtempSync(`${goal}-`);
  const archive = join(fresh, 'libraries.tar');
  writeFileSync(archive, brotliDecompressSync(readFileSync(join(folder, 'bin', 'al2023.tar.br'))));
  mkdirSync(join(fresh, 'al2023'), { recursive: true });
  execFileSync('tar', ['-xf', archive, '-C', join(fresh, 'al2023')]);
  try {
    renameSync(fresh, goal);
  } catch {
    // Another test file was quicker.
  }
  return libraries;
}
