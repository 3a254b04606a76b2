import { describe, expect, it } from 'vitest';
import { BENZOIC, BENZOIC_BENCH, runOn } from './fake-io.ts';

const files = { 'benzoic.md': BENZOIC, 'bench.csv': BENZOIC_BENCH };

describe('flow --svg', () => {
  it('writes the picture and says so', async () => {
    const done = await runOn({ files }, 'flow', 'benzoic.md', '--svg', 'out.svg');
    expect(done.exit).toBe(0);
    expect(done.out).toContain('The flow sheet is written to out.svg.');
    expect(Object.keys(done.written)).toEqual(['out.svg']);
    expect(done.written['out.svg']).toMatch(/^<svg [^]*<\/svg>\n$/);
    expect(done.written['out.svg']).toContain('of benzoic acid');
  });

  it('shows the answer of a bench when given its record', async () => {
    const done = await runOn(
      { files },
      'flow',
      'benzoic.md',
      '--record',
      'bench.csv',
      '--svg',
      'out.svg',
    );
    expect(done.written['out.svg']).toMatch(/<desc[^>]*>[^<]*%/);
    expect(done.written['out.svg']).toContain('text-decoration="underline"');
  });

  it('draws in the theme that is asked for', async () => {
    const done = await runOn(
      { files },
      'flow',
      'benzoic.md',
      '--svg',
      'out.svg',
      '--theme',
      'print',
    );
    expect(done.written['out.svg']).not.toContain('#faf6ee');
  });

  it('names the picture in JSON', async () => {
    const done = await runOn({ files }, 'flow', 'benzoic.md', '--svg', 'out.svg', '--json');
    expect(JSON.parse(done.out)).toMatchObject({ run: 'plan', picture: 'out.svg' });
  });

  it.each([
    [['--svg', 'benzoic.md'], /ends in \.svg/],
    [['--svg', 'out.svg', '--theme', 'drak'], /no theme drak[^]*--theme dark/],
    [['--theme', 'dark'], /--svg OUT\.svg/],
    [['--svg'], /needs a value/],
    [['--svg', 'locked/out.svg'], /cannot be written to locked\/out\.svg: nothing may be written/],
  ])('refuses %j in plain words, and writes nothing', async (options, message) => {
    const done = await runOn({ files }, 'flow', 'benzoic.md', ...options);
    expect(done.exit).toBe(2);
    expect(done.err).toMatch(message);
    expect(done.written).toEqual({});
  });
});
