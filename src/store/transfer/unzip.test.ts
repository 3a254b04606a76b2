import { strFromU8, strToU8, zipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { refusalOf } from '../refusal.ts';
import { unzip } from './unzip.ts';
import { zipWriter } from './zip.ts';

const LIMITS = { size_bytes: 100_000, unpacked_bytes: 1_000_000, files: 50 };

function answerTo(bytes: Uint8Array, limits = LIMITS): { code: string; message: string } {
  try {
    unzip(bytes, limits);
    return { code: 'read', message: '' };
  } catch (error) {
    return refusalOf(error) ?? { code: 'failed', message: String(error) };
  }
}

const codeOf = (bytes: Uint8Array, limits = LIMITS): string => answerTo(bytes, limits).code;

/** A zip file with a number in the list of its first file written over. */
function withField(offset: number, value: number, size: 2 | 4): Uint8Array {
  const zip = Buffer.from(zipSync({ 'a.txt': strToU8('a'.repeat(1000)), 'b.txt': strToU8('b') }));
  const entry = zip.indexOf(Buffer.from([0x50, 0x4b, 1, 2]));
  zip.writeUIntLE(value, entry + offset, size);
  return zip;
}

describe('a zip file', () => {
  it('of any files is read as it was written', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(
          fc.tuple(
            fc.stringMatching(/^[a-z]{1,8}(\/[a-z]{1,8})?\.x$/),
            fc.uint8Array(),
            fc.boolean(),
          ),
          { selector: ([path]) => path, maxLength: 10 },
        ),
        (given) => {
          const zip = zipWriter();
          const parts = given.flatMap(([path, bytes, packed]) => zip.add(path, bytes, packed));
          const files = unzip(Buffer.concat([...parts, ...zip.end()]), LIMITS);
          expect([...files].map(([path, bytes]) => [path, [...bytes]])).toEqual(
            given.map(([path, bytes]) => [path, [...bytes]]),
          );
        },
      ),
    );
  });

  it('that another program wrote is read, its folders left out', () => {
    const files = unzip(zipSync({ folder: { 'ä.txt': strToU8('text') }, empty: {} }), LIMITS);
    expect([...files.keys()]).toEqual(['folder/ä.txt']);
    expect(strFromU8(files.get('folder/ä.txt')!)).toBe('text');
  });

  it.each([
    '../up.txt',
    '/root.txt',
    'a/../../b.txt',
    'a//b.txt',
    './a.txt',
    'C:a.txt',
    'a\\b.txt',
    'a\u0000b',
  ])('with a file named %j is refused', (path) => {
    expect(codeOf(zipSync({ [path]: strToU8('x') }))).toBe('import-no-zip');
  });

  it.each([
    ['has no list', strToU8('PK, but nothing else of one, and long enough to be looked through')],
    ['has no list', new Uint8Array()],
    ['has no list', zipSync({ 'a.txt': strToU8('a'.repeat(999)) }).subarray(0, -40)],
    ['"a.txt" cannot be unpacked', withField(24, 999, 4)],
    ['"a.txt" cannot be unpacked', withField(24, 1001, 4)],
    ['"a.txt" cannot be unpacked', withField(10, 12, 2)],
    ['is encrypted', withField(8, 1, 2)],
    ['does not begin where', withField(42, 7, 4)],
    ['ends too soon', withField(20, 5000, 4)],
    ['share their bytes', withField(20, 60, 4)],
    ['list of files is broken', withField(28, 6, 2)],
  ])('is refused where it %s', (why, bytes) => {
    expect(answerTo(bytes)).toMatchObject({
      code: 'import-no-zip',
      message: expect.stringContaining(why),
    });
  });

  it('with one name twice is refused', () => {
    const twice = Buffer.from(zipSync({ 'a.txt': strToU8('1'), 'b.txt': strToU8('2') }));
    twice.write('a.txt', twice.lastIndexOf('b.txt'));
    expect(codeOf(twice)).toBe('import-no-zip');
  });

  it('that is too large, unpacks to too much or has too many files is refused unread', () => {
    const bomb = zipSync({ 'zeros.bin': new Uint8Array(2_000_000) });
    expect(bomb.length).toBeLessThan(LIMITS.size_bytes);
    const many = Object.fromEntries(Array.from({ length: 51 }, (_, i) => [`${i}.x`, strToU8('x')]));
    expect(codeOf(bomb)).toBe('import-too-large');
    expect(codeOf(zipSync(many))).toBe('import-too-large');
    expect(codeOf(bomb, { ...LIMITS, unpacked_bytes: 3e6 })).toBe('read');
    expect(codeOf(bomb, { ...LIMITS, unpacked_bytes: 3e6, size_bytes: 1000 })).toBe(
      'import-too-large',
    );
  });

  it('that says it is small and unpacks to much is given up at what it said', () => {
    const lying = Buffer.from(zipSync({ 'zeros.bin': new Uint8Array(2_000_000) }));
    lying.writeUInt32LE(100, lying.indexOf(Buffer.from([0x50, 0x4b, 1, 2])) + 24);
    expect(codeOf(lying)).toBe('import-no-zip');
  });

  it('of any bytes is read or refused', () => {
    const whole = zipSync({ 'a.txt': strToU8('a'.repeat(300)), 'b.txt': strToU8('b') });
    const spoilt = fc
      .array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 8 })
      .map((places) => {
        const bytes = Uint8Array.from(whole);
        for (const [at, value] of places) bytes[at] = value;
        return bytes;
      });
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 200 }), spoilt), (bytes) => {
        expect(['read', 'import-no-zip', 'import-too-large']).toContain(codeOf(bytes));
      }),
      { numRuns: Number(process.env['FUZZ_RUNS'] ?? 1000) },
    );
  });
});
