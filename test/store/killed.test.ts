import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/quantity/random.ts';
import { newFolder, sqlitePlace } from '../../src/store/testing/kinds.ts';
import { begin, RUN } from '../../src/store/testing/pieces.ts';

const ROUNDS = 24;
const here = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** Among the packages, so that the one that is not bundled is found from there. */
let bundled: string;
beforeAll(async () => {
  bundled = mkdtempSync(here('../../node_modules/.killed-child-'));
  await build({
    entryPoints: [here('killed-child.ts')],
    outfile: join(bundled, 'child.mjs'),
    bundle: true,
    platform: 'node',
    format: 'esm',
    external: ['better-sqlite3'],
    logLevel: 'error',
  });
});
afterAll(() => rmSync(bundled, { recursive: true, force: true }));

/** Lets a process write, kills it some time after its first acknowledgement, gives what it printed. */
async function writeUntilKilled(folder: string, round: number, after_ms: number) {
  const child = spawn(process.execPath, [join(bundled, 'child.mjs'), folder, String(round)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const acknowledged: string[] = [];
  const lines = createInterface({ input: child.stdout });
  lines.on('line', (line) => {
    if (acknowledged.push(line) === 1) setTimeout(() => child.kill('SIGKILL'), after_ms);
  });
  await Promise.all([once(child, 'exit'), once(lines, 'close')]);
  expect(child.signalCode).toBe('SIGKILL');
  return acknowledged;
}

describe('a process that is killed while it writes', () => {
  it(`has kept whatever it acknowledged, whole and once, ${ROUNDS} times over`, async () => {
    const folder = newFolder();
    const place = await sqlitePlace(folder);
    const first = await place.open();
    await begin(first);
    await first.close();
    const { uniform } = seededRandom(20_260_203);
    const acknowledged: string[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      acknowledged.push(...(await writeUntilKilled(folder, round, 2 + 120 * uniform())));
      const store = await place.open();
      const kept = await store.entries(RUN);
      await store.close();
      const ids = new Set(kept.map(({ entry }) => entry.id));
      const calls = new Set([...ids].map((id) => id.slice(0, -2)));
      expect(ids.size).toBe(kept.length);
      expect(ids.size).toBe(3 * calls.size);
      expect(acknowledged.filter((call) => !calls.has(call))).toEqual([]);
      expect(kept.every(({ seq }, i) => seq === i + 1)).toBe(true);
    }
    expect(acknowledged.length).toBeGreaterThan(ROUNDS);
    const database = new Database(join(folder, 'weighboat.sqlite'), { readonly: true });
    expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
    database.close();
  });
});
