import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { widthOf } from '../../src/cli/paint/text.ts';
import { runOn } from './fake-io.ts';

const folder = fileURLToPath(new URL('../../examples/', import.meta.url));
const examples = existsSync(folder)
  ? readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => entry.name)
  : [];

const filesOf = (name: string) =>
  Object.fromEntries(
    readdirSync(join(folder, name), { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => [entry.name, readFileSync(join(folder, name, entry.name), 'utf8')]),
  );

describe.each(examples)('the example %s', (name) => {
  const files = filesOf(name);
  const records = Object.keys(files).filter((file) => file.endsWith('.csv'));

  it('has no errors and names what it makes', async () => {
    const { exit, out } = await runOn({ files }, 'check', 'experiment.md');
    expect(exit, out).toBe(0);
    expect(out).toMatch(/(Makes|Gives back) at most \d/);
  });

  it('is drawn within its page, as lanes and as a list', async () => {
    for (const width of [60, 100])
      for (const command of ['flow', 'reagents']) {
        const { exit, out } = await runOn({ files, width }, command, 'experiment.md');
        expect(exit).toBe(0);
        expect(Math.max(...out.split('\n').map(widthOf))).toBeLessThanOrEqual(width);
      }
  });

  it('keeps a ledger that balances, for the plan and for each bench', async () => {
    for (const more of [[], ...records.map((record) => ['--record', record])]) {
      const { out } = await runOn({ files }, 'ledger', 'experiment.md', ...more);
      expect(out).toContain('It balances: mass, each element and charge.');
    }
  });

  it.each(records)('answers for %s in its first line', async (record) => {
    const { exit, out } = await runOn({ files }, 'yield', 'experiment.md', '--record', record);
    expect([0, 1]).toContain(exit);
    expect(out.split('\n')[0]).toMatch(/\.$/);
  });
});
