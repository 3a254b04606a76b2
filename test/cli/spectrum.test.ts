import { describe, expect, it } from 'vitest';
import { ALCOHOL, KETONE } from '../made-up-spectra.ts';
import { runOn } from './fake-io.ts';

const files = {
  'ketone.csv': KETONE,
  'alcohol.csv': ALCOHOL,
  'page.jdx': '<!DOCTYPE html><p>Not found</p>',
  'cut.jdx':
    '##TITLE=x\n##JCAMP-DX=4.24\n##DATA TYPE=INFRARED SPECTRUM\n##XUNITS=1/CM\n##YUNITS=ABSORBANCE\n' +
    '##FIRSTX=400\n##LASTX=800\n##NPOINTS=101\n##XFACTOR=1\n##YFACTOR=1\n##XYDATA=(X++(Y..Y))\n400 1 2 3\n',
};
const run = (...argv: string[]) => runOn({ files }, ...argv);

const REDUCTION = ['--product', 'OC1CCCCC1', '--from', 'O=C1CCCCC1', '--state', 'film'];

describe('spectrum', () => {
  it('tells the story of a reduction that went', async () => {
    const { exit, out } = await run('spectrum', 'alcohol.csv', ...REDUCTION);
    expect(exit).toBe(0);
    expect(out).toMatch(/new O–H group is seen/);
    expect(out).toMatch(/C=O group of the starting material is not seen/);
    expect(out).toMatch(/O–H +seen/);
  });

  it('contradicts the starting material that is called the product, and ends with 1', async () => {
    const { exit, out } = await run('spectrum', 'ketone.csv', ...REDUCTION);
    expect(exit).toBe(1);
    expect(out).toMatch(/C=O group is still there/);
  });

  it('without structures says which groups are seen', async () => {
    const { out } = await run('spectrum', 'ketone.csv', '--state', 'film');
    expect(out).toMatch(/C=O +seen/);
    expect(out).toMatch(/O–H +not there/);
  });

  it('gives data to programs, and a picture', async () => {
    const { out } = await run('spectrum', 'ketone.csv', '--json');
    const { groups } = JSON.parse(out) as { groups: { group: string; probability: number }[] };
    expect(groups.find(({ group }) => group === 'carbonyl')!.probability).toBeGreaterThan(0.9);
    const { written } = await run('spectrum', 'ketone.csv', '--svg', 'k.svg');
    expect(written['k.svg']).toMatch(/^<svg .*Wavenumber/s);
  });

  it.each([
    [['spectrum', 'page.jdx'], /web page, not a spectrum/],
    [['spectrum', 'cut.jdx'], /cut\.jdx, line \d+:/],
    [['spectrum', 'none.jdx'], /no file of this name/],
    [['spectrum', 'ketone.csv', '--state', 'melted'], /no state melted/],
    [['spectrum', 'ketone.csv', '--product', 'C1CC'], /--product C1CC/],
    [['spectrum', 'ketone.csv', '--svg', 'k.png'], /ends in \.svg/],
  ])('%j is refused in words', async (argv, said) => {
    const { exit, err } = await run(...argv);
    expect(exit).toBe(2);
    expect(err.replace(/\s+/g, ' ')).toMatch(said);
  });
});

describe('convert', () => {
  it('writes JCAMP-DX that gives the table back', async () => {
    const { exit, out, written } = await run('convert', 'ketone.csv', 'k.jdx');
    expect([exit, out]).toEqual([0, expect.stringContaining('Written to k.jdx.')]);
    expect(written['k.jdx']).toMatch(/^##TITLE=/);
    const back = await runOn(
      { files: { 'k.jdx': written['k.jdx']! } },
      'convert',
      'k.jdx',
      'b.csv',
    );
    const again = await run('convert', 'ketone.csv', 'a.csv');
    expect(back.written['b.csv']).toBe(again.written['a.csv']);
  });

  it('corrects ATR: the O–H of water moves up and low wavenumbers come down', async () => {
    const { exit, written } = await run('convert', 'alcohol.csv', 'film.csv', '--atr', 'diamond');
    expect(exit).toBeLessThan(2);
    const rows = written['film.csv']!.split('\n').map((row) => row.split(',').map(Number));
    const heightAt = (at: number) => rows.find(([x]) => x === at)![1]!;
    const ratio = (high: number, low: number) => heightAt(high) / heightAt(low);
    // As recorded 0.45 : 0.60; the depth of the light gains the higher wavenumber
    expect(ratio(3340, 1052)).toBeGreaterThan(1.5);
  });

  it.each([
    [['convert', 'ketone.csv', 'k.xls'], /ends in \.jdx, \.csv or \.tsv/],
    [['convert', 'ketone.csv', 'ketone.csv'], /written over itself/],
    [['convert', 'ketone.csv', 'k.jdx', '--atr', 'glass'], /no crystal glass/],
    [['convert', 'ketone.csv', 'k.jdx', '--block', '2'], /no spectrum 2/],
    [['convert', 'ketone.csv', 'locked/k.jdx'], /cannot be written/],
    [['convert', 'cut.jdx', 'k.csv'], /line \d+/],
  ])('%j is refused in words', async (argv, said) => {
    const { exit, err } = await run(...argv);
    expect(exit).toBe(2);
    expect(err.replace(/\s+/g, ' ')).toMatch(said);
  });
});
