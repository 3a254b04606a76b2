import { expect, test } from 'vitest';
import { beginningOf, likelyTechnique, notFromInstrument } from './sniff.ts';

test.each([
  ['##TITLE=x\n##DATA TYPE=INFRARED SPECTRUM', 'infrared'],
  ['##TITLE=x\r\n##DATATYPE= NMR SPECTRUM', 'nmr'],
  ['##DATA TYPE=MASS SPECTRUM', 'mass'],
  ['##DATA TYPE=LINK\n##BLOCKS=2\n##DATA TYPE=NMR SPECTRUM', 'nmr'],
  ['##DATA_TYPE=GAS CHROMATOGRAM', 'chromatogram'],
  ['4000,98.2\n3998,98.1', 'infrared'],
])('%j is taken for %s', (text, technique) => {
  expect(likelyTechnique(text)).toBe(technique);
});

test.each([
  ['a web page', '<!DOCTYPE html><html>', /web page/],
  ['a picture', '\u0089PNG\r\n', /picture/],
  ['a PDF', '%PDF-1.7', /PDF/],
])('%s is answered kindly', (_, text, said) => {
  expect(notFromInstrument('a.jdx', text.length, text)).toMatch(said);
});

test('an empty and a huge file too, and a spectrum is let through', () => {
  expect(notFromInstrument('a.jdx', 0, '')).toMatch(/empty/);
  expect(notFromInstrument('a.jdx', 60e6, '##TITLE=')).toMatch(/10 MB/);
  expect(notFromInstrument('a.jdx', 100, '##TITLE=')).toBeUndefined();
});

test('a byte-order mark and UTF-16 do not hide the beginning', async () => {
  const utf16 = new Uint8Array([0xff, 0xfe, 0x23, 0, 0x23, 0, 0x54, 0]);
  expect(await beginningOf(new Blob([utf16]))).toBe('##T');
});
