import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { convert } from 'jcampconverter';
import { describe, expect, it } from 'vitest';
import { readInstrumentFile } from '../../src/core/evidence/spectrum/read/read-file.ts';
import type { MeasuredTrace } from '../../src/core/evidence/spectrum/trace.ts';
import published from './spectrum-files.json' with { type: 'json' };

const FOLDER = fileURLToPath(new URL('../../../shared/spectra/', import.meta.url));
const isThere = existsSync(FOLDER);

interface Expected {
  readonly file: string;
  readonly outcome: string;
  readonly code?: string;
  readonly line?: number;
  readonly traces?: readonly {
    readonly technique: string;
    readonly kind: string;
    readonly points: number;
    readonly x: readonly number[];
    readonly y: readonly number[];
    readonly xUnit: string;
    readonly yUnit: string;
    readonly warnings: readonly string[];
  }[];
}

const files: readonly Expected[] = published.files;

function read(file: string) {
  return readInstrumentFile(readFileSync(join(FOLDER, file)), file.split('/').at(-1));
}

const close = (a: number | undefined, b: number) =>
  Math.abs((a ?? Number.NaN) - b) <= 1e-12 * Math.max(1, Math.abs(b));

describe.skipIf(!isThere)(
  'each file of the collection (skipped where the collection is not there)',
  () => {
    it.each(files)('$file', ({ file, outcome, code, line, traces = [] }) => {
      const reading = read(file);
      if (!reading.ok) {
        expect({ outcome, code, line }).toEqual({
          outcome: 'refused',
          code: reading.problem.code,
          line: reading.problem.at?.line,
        });
        return;
      }
      expect(reading.format).toBe(outcome);
      expect(reading.traces.length).toBe(traces.length);
      reading.traces.forEach((trace, i) => {
        const wanted = traces[i]!;
        const { technique, kind, xUnit, yUnit, warnings } = trace;
        expect({
          technique,
          kind,
          xUnit,
          yUnit,
          points: trace.x.length,
          warnings: warnings.map((w) => w.code),
        }).toEqual({
          technique: wanted.technique,
          kind: wanted.kind,
          xUnit: wanted.xUnit,
          yUnit: wanted.yUnit,
          points: wanted.points,
          warnings: wanted.warnings,
        });
        expect([close(trace.x[0], wanted.x[0]!), close(trace.x.at(-1), wanted.x[1]!)]).toEqual([
          true,
          true,
        ]);
        expect([close(trace.y[0], wanted.y[0]!), close(trace.y.at(-1), wanted.y[1]!)]).toEqual([
          true,
          true,
        ]);
      });
    });
  },
);

/** The own files of the collection hold one spectrum in many writings: 850 points from 3996 to 600, step 4. */
describe.skipIf(!isThere)('one spectrum in every writing is one spectrum', () => {
  const reference = () => {
    const reading = read('conformance/own-cc0/01_affn.jdx');
    if (!reading.ok) throw new Error(reading.problem.message);
    return reading.traces[0]!;
  };
  const same = [
    '02_pac',
    '03_sqz',
    '04_dif',
    '05_difdup',
    '06_xypoints',
    '07_affn_ascending',
    '12_decimal-comma_affn',
  ];
  const others = [
    '13_decimal-comma_xypoints',
    '14_cr-only',
    '15_crlf-bom-latin1',
    '16_no-end',
    '17_npoints-too-big',
  ];
  const more = [
    '21_link-two-blocks',
    '22_two-blocks-no-link',
    '23_deltax-mismatch',
    '24_firsty-mismatch',
    '25_comments-blank-lines',
  ];
  it.each([...same, ...others, ...more])('%s', (name) => {
    const reading = read(`conformance/own-cc0/${name}.jdx`);
    const { x, y } = reference();
    expect(x.length).toBe(850);
    expect(reading).toMatchObject({
      ok: true,
      traces: [{ x, y }, ...(reading.ok ? reading.traces.slice(1) : [])],
    });
  });

  it.each(['08_percentT', '09_fractionT', '10_percent-labelled-TRANSMITTANCE'])(
    '%s: A = −log10 T',
    (name) => {
      const reading = read(`conformance/own-cc0/${name}.jdx`);
      if (!reading.ok) throw new Error(reading.problem.message);
      const { y } = reference();
      reading.traces[0]!.y.forEach((value, i) => expect(-Math.log10(value)).toBeCloseTo(y[i]!, 3));
    },
  );
});

/**
 * Where the other reader is known to read something else, and why ours is right: in 06 and 13 it does
 * not know XYPOINTS; 12 and the German file have decimal commas; in 17 it stretches the axis by the
 * wrong NPOINTS; in 20 it drops the missing ordinate; `jtpolys` has a comment behind YFACTOR; the
 * exponents of one file are taken for squeezed digits; in `dupinc2` a check value is repeated by DUP.
 */
const DIFFERENT =
  /06_xy|1[23]_decimal|17_npoints|20_missing|decimal-comma|jtpolys\.|scientific_notation|dupinc2/;

/** Largest differences to the other reader: x over the range, y over the greatest height. */
function differences(
  trace: MeasuredTrace,
  theirs: { x: number[]; y: number[] },
): readonly [x: number, y: number] {
  const isFalling = theirs.x[0]! > theirs.x.at(-1)!;
  const x = isFalling ? theirs.x.toReversed() : theirs.x;
  const y = isFalling ? theirs.y.toReversed() : theirs.y;
  const height = y.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const percent = trace.yUnit === 'transmittance' && height > 5 ? 100 : 1;
  const range = Math.abs(x.at(-1)! - x[0]!);
  let [dx, dy] = [0, 0];
  x.forEach((value, i) => {
    dx = Math.max(dx, Math.abs(value - trace.x[i]!) / range);
    dy = Math.max(dy, Math.abs(y[i]! - percent * trace.y[i]!) / height);
  });
  return [dx, dy];
}

describe.skipIf(!isThere)('agreement with jcampconverter 10.0.2 (MIT) on every good file', () => {
  const good = files.filter(({ file, outcome }) => outcome === 'jcamp' && !DIFFERENT.test(file));
  it.each(good)('$file', ({ file }) => {
    const reading = read(file);
    if (!reading.ok) throw new Error(reading.problem.message);
    const spectra = convert(readFileSync(join(FOLDER, file))).flatten.flatMap(
      (entry) => entry.spectra,
    );
    reading.traces.forEach((trace, i) => {
      const { data } = spectra[i]!;
      if (!('x' in data) || !('y' in data)) throw new Error('Other data.');
      const [x, y] = [
        Array.from(data.x as ArrayLike<number>),
        Array.from(data.y as ArrayLike<number>),
      ];
      expect(x.length).toBe(trace.x.length);
      const [dx, dy] = differences(trace, { x, y });
      expect(dy).toBeLessThan(1e-9);
      // It divides by the carrier frequency; 0 ppm is at $SF, some ppm beside it.
      expect(dx).toBeLessThan(trace.technique === 'nmr' && trace.xUnit === 'ppm' ? 2e-5 : 1e-9);
    });
  });

  it('on a repeated check value the next check, not the other reader, decides', () => {
    // ##NPOINTS and all later checks of the file hold with the value counted once more.
    const reading = read('conformance/lancashire-public-domain/dupinc2.jdx');
    expect(reading).toMatchObject({ ok: true, traces: [{ x: { length: 3734 } }] });
  });
});
