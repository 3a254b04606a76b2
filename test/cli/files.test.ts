import fc from 'fast-check';
import { mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { processIo } from '../../src/cli/process-io.ts';
import { BENZOIC, runOn } from './fake-io.ts';

const FUZZ_RUNS = Number(process.env['FUZZ_RUNS'] ?? 200);
const folder = mkdtempSync(join(tmpdir(), 'weighboat-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('files that are no experiment', () => {
  it.each([
    ['nothing there', undefined, 'There is no file a.md.'],
    ['a folder', { trouble: 'folder' }, 'a.md is a folder.'],
    ['a file that may not be read', { trouble: 'denied' }, 'may not be read'],
    ['a disk that fails', { trouble: 'other', detail: 'EIO' }, 'cannot be read: EIO'],
    ['an empty file', '', 'a.md is empty.'],
    ['a file of blanks', ' \n\t\n', 'a.md is empty.'],
    ['more than 5 MB', new Uint8Array(5_000_001).fill(32), 'larger than 5 MB'],
    [
      'a picture',
      new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]),
      'a picture, not plain text',
    ],
    ['a PDF', '%PDF-1.7 ...', 'a PDF, not plain text'],
    [
      'a word-processor file',
      new Uint8Array([0x50, 0x4b, 3, 4, 20]),
      'a word-processor, spreadsheet or zip',
    ],
    ['a nought byte', 'abc\0def', 'is not text'],
    ['control characters', '\u0001\u0002\u0003abc', 'is not text'],
  ] as const)('%s', async (_what, content, message) => {
    const files = content === undefined ? {} : { 'a.md': content };
    for (const command of ['check', 'reagents', 'flow', 'ledger']) {
      const { exit, out, err } = await runOn({ files }, command, 'a.md');
      expect([exit, out]).toEqual([2, '']);
      expect(err).toContain(message);
    }
  });

  it('asks for something on the standard input where nothing comes', async () => {
    const { exit, err } = await runOn({}, 'check', '-');
    expect(exit).toBe(2);
    expect(err).toContain('Nothing comes from the standard input.');
  });
});

describe('files that are one, in other encodings', () => {
  const plain = BENZOIC.replace('in ice for', 'in ice at 5 °C for');
  const utf16 = new Uint8Array([
    0xff,
    0xfe,
    ...new Uint8Array(Uint16Array.from(plain, (c) => c.charCodeAt(0)).buffer),
  ]);
  const latin = Uint8Array.from(plain, (c) => c.charCodeAt(0));
  it.each([
    ['from the standard input', undefined, ''],
    ['with a byte-order mark', `\ufeff${plain}`, ''],
    ['with the line ends of Windows', plain.replaceAll('\n', '\r\n'), ''],
    ['in UTF-16', utf16, ''],
    ['in Windows-1252', latin, 'read as Windows-1252'],
  ] as const)('%s', async (_what, content, remark) => {
    const machine = content === undefined ? { stdin: plain } : { files: { '-a': content } };
    const args = content === undefined ? ['-'] : ['--', '-a'];
    const expected = await runOn({ files: { x: plain } }, 'reagents', 'x');
    const { exit, out, err } = await runOn(machine, 'reagents', ...args);
    expect(exit).toBe(0);
    const noVersion = (text: string) =>
      text.replace(/version [0-9a-f]+/, '').replace(/on this document.*/, '');
    expect(noVersion(out)).toBe(noVersion(expected.out));
    expect(err).toContain(remark);
  });

  it('prints no control character of a document', async () => {
    const sly = BENZOIC.replace('# Benzoic', '# \u001b[2J\u001b]0;x\u0007Benzoic').replace(
      'Filter',
      'Fil\u001b[1mter',
    );
    for (const command of ['check', 'reagents', 'flow', 'ledger']) {
      const { out } = await runOn({ files: { x: sly } }, command, 'x');
      // eslint-disable-next-line no-control-regex -- control characters are what is meant
      expect(out).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/);
    }
  });

  it('survives a document cut, doubled or shuffled anywhere', async () => {
    const lines = BENZOIC.split('\n');
    const mangled = fc.oneof(
      fc.nat(BENZOIC.length).map((end) => BENZOIC.slice(0, end)),
      fc.shuffledSubarray(lines).map((some) => some.join('\n')),
      fc
        .tuple(fc.nat(BENZOIC.length), fc.string())
        .map(([at, more]) => BENZOIC.slice(0, at) + more + BENZOIC.slice(at)),
      fc.string(),
    );
    await fc.assert(
      fc.asyncProperty(
        mangled,
        fc.constantFrom('check', 'reagents', 'flow', 'ledger'),
        async (text, command) => {
          const { exit } = await runOn({ files: { x: text } }, command, 'x');
          expect([0, 1, 2]).toContain(exit);
        },
      ),
      { numRuns: FUZZ_RUNS },
    );
  });
});

describe('the real machine', () => {
  const { read } = processIo();
  it('reads a file', async () => {
    const path = join(folder, 'x.md');
    writeFileSync(path, 'text °C');
    expect(new TextDecoder().decode((await read(path)) as Uint8Array)).toBe('text °C');
  });

  it('says what is amiss', async () => {
    mkdirSync(join(folder, 'sub'));
    writeFileSync(join(folder, 'large'), Buffer.alloc(5_000_001, 32));
    writeFileSync(join(folder, 'file'), 'x');
    expect(await read(join(folder, 'none'))).toMatchObject({ trouble: 'missing' });
    expect(await read(join(folder, 'file', 'below'))).toMatchObject({ trouble: 'missing' });
    expect(await read(join(folder, 'sub'))).toMatchObject({ trouble: 'folder' });
    expect(await read(join(folder, 'large'))).toMatchObject({ trouble: 'too-large' });
    expect(await read('a\0b')).toMatchObject({ trouble: 'other' });
  });
});
