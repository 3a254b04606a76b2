import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readInstrumentFile } from './read-file.ts';
import { bytesOf, jcampText, traceOf } from './testing.ts';

function outcome(bytes: Uint8Array): string {
  const reading = readInstrumentFile(bytes);
  return reading.ok ? 'read' : `${reading.problem.code}: ${reading.problem.message}`;
}

const latin = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));

function utf16(text: string, isLittle: boolean, mark: boolean): Uint8Array {
  const bytes: number[] = [];
  for (const c of mark ? `\uFEFF${text}` : text) {
    const code = c.charCodeAt(0);
    bytes.push(...(isLittle ? [code & 255, code >> 8] : [code >> 8, code & 255]));
  }
  return Uint8Array.from(bytes);
}

describe('what is no spectrum is refused by what it is', () => {
  it.each([
    ['nothing', new Uint8Array(), 'file-empty'],
    ['blanks', bytesOf(' \n\t\n'), 'file-empty'],
    [
      'a web page',
      bytesOf('<!DOCTYPE html><html><body>404</body></html>'),
      'file-not-spectrum: This is a web page',
    ],
    [
      'a web page without its head',
      bytesOf('\n<html><p>Not found'),
      'file-not-spectrum: This is a web page',
    ],
    ['XML', bytesOf('<?xml version="1.0"?><a/>'), 'file-not-spectrum: This is an XML file'],
    ['JSON', bytesOf('{"x": [1, 2], "y": [3, 4]}'), 'file-not-spectrum: This is a JSON file'],
    ['PDF', bytesOf('%PDF-1.7\n1 2\n3 4\n'), 'file-not-spectrum: This is a PDF document'],
    [
      'PNG',
      Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10),
      'file-not-spectrum: This is a picture',
    ],
    ['JPEG', Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), 'file-not-spectrum: This is a picture'],
    ['ZIP', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0), 'file-not-spectrum: This is a packed folder'],
    [
      'netCDF',
      Uint8Array.of(0x43, 0x44, 0x46, 1, 0, 0),
      'file-not-spectrum: This is a netCDF file',
    ],
    [
      'other binary',
      Uint8Array.from({ length: 600 }, (_, i) => (i * 37) & 255),
      'file-not-spectrum: This is an instrument’s',
    ],
    ['a letter', bytesOf('Dear Sir,\nthe spectrum is attached.\n'), 'file-no-data'],
  ])('%s', (_, bytes, said) => {
    expect(outcome(bytes).startsWith(said)).toBe(true);
  });

  it('more than 50 MB', () => {
    expect(outcome(new Uint8Array(50 * 1024 * 1024 + 1))).toMatch(/^file-too-large/);
  });

  it('a text that begins with BM is no bitmap', () => {
    expect(outcome(bytesOf('BM 12 film\n400,0.1\n404,0.2\n408,0.1\n'))).toBe('read');
  });
});

describe('text in every encoding', () => {
  const text = jcampText({ TITLE: 'Éthanol 25 °C' });
  it.each([
    ['UTF-8', bytesOf(text)],
    ['UTF-8 with a mark', bytesOf(`\uFEFF${text}`)],
    ['ISO 8859-1', latin(text)],
    ['UTF-16, low byte first', utf16(text, true, true)],
    ['UTF-16, high byte first', utf16(text, false, true)],
    ['UTF-16 without a mark', utf16(text, true, false)],
    ['UTF-16 without a mark, high byte first', utf16(text, false, false)],
  ])('%s', (_, bytes) => {
    const reading = readInstrumentFile(bytes);
    expect(reading).toMatchObject({ ok: true, traces: [{ title: 'Éthanol 25 °C' }] });
  });

  it('letters beyond the first plane', () => {
    expect(traceOf(jcampText({ TITLE: '𝜈 café €' })).title).toBe('𝜈 café €');
  });

  it('an overlong form is no UTF-8', () => {
    const bytes = Uint8Array.of(
      ...bytesOf('##TITLE='),
      0xc0,
      0xaf,
      ...bytesOf(jcampText().slice(12)),
    );
    expect(readInstrumentFile(bytes)).toMatchObject({ ok: true, traces: [{ title: 'À¯' }] });
  });
});

describe('the examples of the specification are read without a warning', () => {
  const page = fileURLToPath(
    new URL('../../../../../docs/spec/spectrum-files.md', import.meta.url),
  );
  const blocks = readFileSync(page, 'utf8')
    .split(/^```\n/m)
    .filter((_, i) => i % 2 === 1);
  it.each(blocks)('%#', (block) => {
    expect(blocks.length).toBeGreaterThan(1);
    expect(traceOf(block)).toMatchObject({ yUnit: 'absorbance', xUnit: '1/cm', warnings: [] });
  });
});
