import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const node = (...args: string[]) =>
  spawnSync(process.execPath, args, {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, INIT_CWD: root },
  });

describe('from the shell', () => {
  it('starts with the demonstration', () => {
    const { status, stdout, stderr } = node('scripts/start.mjs');
    expect(status, stderr).toBe(0);
    expect(stderr).toContain('Reading examples');
    for (const part of [
      'Makes at most',
      'Flow sheet',
      'Reagents',
      'Yield of the bench',
      'To go on',
    ])
      expect(stdout).toContain(part);
  });

  it('says in a sentence that a file is not there', () => {
    const { status, stdout, stderr } = node('scripts/start.mjs', 'no-such.md');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr.trim().split('\n').at(-1)).toMatch(
      /^There is no file or folder .*no-such\.md\.$/,
    );
  });

  it('runs a command', () => {
    const { status, stdout } = node('bin/weighboat.mjs', 'mass', 'NaBH4');
    expect(status).toBe(0);
    expect(stdout).toContain('37.83 g/mol');
  });
});
