import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.ts';
import { BENZOIC, BENZOIC_BENCH, runOn } from './fake-io.ts';

const FUZZ_RUNS = Number(process.env['FUZZ_RUNS'] ?? 300);

describe('the command line', () => {
  it('says what there is', async () => {
    for (const argv of [[], ['--help'], ['-h'], ['help']]) {
      const { exit, out, err } = await runOn({}, ...argv);
      expect([exit, err]).toEqual([0, '']);
      for (const { name } of COMMANDS) expect(out).toContain(`  ${name} `);
    }
  });

  it.each(COMMANDS.map((command) => [command.name, command] as const))(
    '%s has a page of help that fits its page',
    async (name, command) => {
      const { exit, out } = await runOn({ width: 80 }, name, '--help');
      expect(exit).toBe(0);
      expect(out).toContain(`weighboat ${name} ${command.takes}`.trim());
      expect(out).toContain('--json');
      for (const example of command.examples) expect(out).toContain(example);
      expect(await runOn({}, 'help', name)).toEqual(await runOn({}, name, '-h'));
    },
  );

  it.each([
    ['an unknown command', ['chek'], 'There is no command chek.', 'Is it: weighboat check'],
    ['a command far from any', ['qqqqqqqq'], 'There is no command', 'weighboat --help'],
    ['no file', ['check'], 'Something is missing.', 'Usage: weighboat check FILE'],
    ['too many files', ['check', 'a', 'b'], 'more here than', 'Usage: weighboat check FILE'],
    ['an unknown option', ['check', 'a', '--jsno'], 'check has no option --jsno.', 'Is it --json?'],
    [
      'an option without its value',
      ['yield', 'a', '--record'],
      '--record needs a value.',
      '--record FILE',
    ],
    ['a value for a switch', ['check', 'a', '--json=yes'], '--json takes no value.', ''],
    ['a width that is none', ['check', 'a', '--width', 'wide'], '--width takes a whole number', ''],
  ])('%s is wrong usage', async (_what, argv, message, hint) => {
    const { exit, out, err } = await runOn({}, ...argv);
    expect([exit, out]).toEqual([2, '']);
    expect(err).toContain(message);
    expect(err).toContain(hint);
  });

  it('answers whatever is typed', async () => {
    const words = [
      ...COMMANDS.map((command) => command.name),
      '--json',
      '--help',
      '--width',
      '--record',
      '--',
      '-',
      '60',
      'a.md',
      'a.csv',
      'NaBH4',
      'A + B -> C',
    ];
    const word = fc.oneof(fc.constantFrom(...words), fc.string(), fc.string({ unit: 'binary' }));
    const argv = fc.oneof(
      fc.array(word, { maxLength: 6 }),
      fc.tuple(fc.constantFrom(...words), word, word),
    );
    const files = { 'a.md': BENZOIC, 'a.csv': BENZOIC_BENCH };
    await fc.assert(
      fc.asyncProperty(argv, async (args) => {
        const { exit } = await runOn({ files, stdin: BENZOIC }, ...args);
        expect([0, 1, 2]).toContain(exit);
      }),
      { numRuns: FUZZ_RUNS },
    );
  });
});
