import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MeasuredTrace } from '../trace.ts';
import { writeJcamp } from '../write/jcamp.ts';
import { writeTable } from '../write/table.ts';
import { MAX_POINTS } from './limits.ts';
import { readInstrumentFile } from './read-file.ts';
import { bytesOf, jcampText } from './testing.ts';

/** Twice what other parsers get: files from outside are the least to be trusted. */
const RUNS = 2 * Number(process.env['FUZZ_RUNS'] ?? 1000);

/** Small real files, where they are there; otherwise the files that are made here have to do. */
function realFiles(): Uint8Array[] {
  const folder = fileURLToPath(
    new URL('../../../../../../shared/spectra/conformance', import.meta.url),
  );
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap((name) =>
    readdirSync(join(folder, name))
      .map((file) => join(folder, name, file))
      .filter((path) => statSync(path).size < 3_100)
      .map((path) => readFileSync(path)),
  );
}

/** Two bands on a floor, as integers over 10⁵: what an instrument writes. */
function banded(n: number): MeasuredTrace {
  const x = Float64Array.from({ length: n }, (_, i) => 600 + 4 * i);
  const band = (at: number, height: number, width: number) =>
    height / (1 + ((at - 0.4) / width) ** 2);
  const y = x.map(
    (_, i) => Math.round(1e5 * (0.01 + band(i / n, 0.8, 0.02) + band(1 - i / n, 0.3, 0.05))) / 1e5,
  );
  return {
    title: 't',
    technique: 'infrared',
    kind: 'curve',
    x,
    y,
    xUnit: '1/cm',
    yUnit: 'absorbance',
    headers: {},
    warnings: [],
  };
}

const NTUPLES =
  '##TITLE=t\n##DATA TYPE=NMR SPECTRUM\n##.OBSERVE FREQUENCY=100\n##NTUPLES=NMR SPECTRUM\n##SYMBOL=X, R, I\n' +
  '##VAR_DIM=4, 4, 4\n##UNITS=HZ, ARBITRARY UNITS, ARBITRARY UNITS\n##FACTOR=100, 2, 2\n##FIRST=300, 2, 10\n' +
  '##LAST=0, 8, 40\n##PAGE=N=1\n##DATA TABLE=(X++(R..R)), XYDATA\n3 1 2\n1 3 4\n##END NTUPLES=\n##END=\n';

const whole: readonly Uint8Array[] = [
  ...[
    writeJcamp(banded(60)),
    writeJcamp(banded(90), { form: 'difdup' }),
    writeJcamp({ ...banded(30), kind: 'peaks' }),
    writeTable(banded(40)),
    writeTable(banded(40), { decimal: ',' }),
    jcampText(),
    `##TITLE=l\n##DATA TYPE=LINK\n##BLOCKS=2\n${jcampText()}${NTUPLES}##END=\n`,
  ].map(bytesOf),
  ...realFiles(),
];

/** Nothing is thrown; what comes back is a sound trace or a reason. */
function isSound(bytes: Uint8Array): boolean {
  const reading = readInstrumentFile(bytes, 'fuzz.dx');
  if (!reading.ok)
    return (
      reading.problem.code !== '' &&
      reading.problem.message !== '' &&
      reading.problem.severity === 'error'
    );
  return (
    reading.traces.length > 0 &&
    reading.traces.every(isSoundTrace) &&
    total(reading.traces) <= MAX_POINTS
  );
}

const total = (traces: readonly MeasuredTrace[]) =>
  traces.reduce((sum, { x }) => sum + x.length, 0);

function isSoundTrace({ x, y, kind }: MeasuredTrace): boolean {
  if (x.length !== y.length || x.length === 0) return false;
  return x.every((value, i) => {
    const before = x[i - 1] ?? Number.NEGATIVE_INFINITY;
    return Number.isFinite(value) && (kind === 'curve' ? value > before : value >= before);
  });
}

const damage = fc.record({
  file: fc.nat(),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 0, max: 40 }),
  how: fc.constantFrom('flip', 'cut', 'delete', 'repeat', 'insert'),
  bytes: fc.uint8Array({ minLength: 1, maxLength: 12 }),
  // Half of what is put in are characters that mean something.
  letters: fc.string({
    unit: fc.constantFrom(...'0123456789.,;+-eE@AJj%STs?#=$() \n\t"'.split('')),
    minLength: 1,
    maxLength: 12,
  }),
  isText: fc.boolean(),
});

type Damage = typeof damage extends fc.Arbitrary<infer T> ? T : never;

function damaged({ file, at, length, how, bytes, letters, isText }: Damage): Uint8Array {
  const good = whole[file % whole.length]!;
  const place = Math.floor(at * good.length);
  const put = isText ? bytesOf(letters) : bytes;
  const joined = (...parts: Uint8Array[]) => new Uint8Array(Buffer.concat(parts));
  const [before, after] = [good.subarray(0, place), good.subarray(place)];
  if (how === 'flip') return joined(before, put.subarray(0, 1), after.subarray(1));
  if (how === 'cut') return before;
  if (how === 'delete') return joined(before, after.subarray(length));
  if (how === 'repeat') return joined(before, after.subarray(0, length), after);
  return joined(before, put, after);
}

const label = fc.constantFrom(
  ...(
    'TITLE|JCAMP-DX|DATA TYPE|XUNITS|YUNITS|XFACTOR|YFACTOR|FIRSTX|LASTX|NPOINTS|' +
    'FIRSTY|DELTAX|MAXY|BLOCKS|SYMBOL|VAR_DIM|FACTOR|FIRST|LAST|UNITS|NTUPLES|PAGE|' +
    '.OBSERVE FREQUENCY|$OFFSET|END'
  ).split('|'),
);
const value = fc.constantFrom(
  ...(
    '|1|0|-1|4|400|1e300|1E-300|0,5|NaN|LINK|NMR SPECTRUM|HZ|1/CM|TRANSMITTANCE|' +
    'X, R, I|1, 2, 3|$$|('
  ).split('|'),
);
const form = fc.constantFrom(
  'XYDATA=(X++(Y..Y))',
  'XYPOINTS=(XY..XY)',
  'PEAK TABLE=(XYM..XYM)',
  'PEAK ASSIGNMENTS=(XYMA)',
  'DATA TABLE=(X++(R..R)), XYDATA',
  'XYDATA=((((',
  'RADATA=(R++(A..A))',
);
const data = fc.string({
  unit: fc.constantFrom(...'0123456789 0123456789.,;+-eE@AJj%STs?\n\n $('.split('')),
  maxLength: 120,
});
const written = fc
  .array(
    fc.oneof(
      fc.tuple(label, value).map(([l, v]) => `##${l}=${v}\n`),
      fc.tuple(form, data).map(([f, d]) => `##${f}\n${d}\n`),
    ),
    { maxLength: 24 },
  )
  .map((records) => `##TITLE=t\n${records.join('')}`);

describe('whatever comes, a sound trace or a reason comes back', () => {
  it('damaged files', () => {
    fc.assert(
      fc.property(damage, (d) => isSound(damaged(d))),
      { numRuns: RUNS },
    );
  });

  it('made-up files in JCAMP-DX', () => {
    fc.assert(
      fc.property(written, (text) => isSound(bytesOf(text))),
      { numRuns: RUNS },
    );
  });

  it('made-up tables', () => {
    const line = fc.string({
      unit: fc.constantFrom(...'0123456789.,;\t -+eE"aN#%'.split('')),
      maxLength: 24,
    });
    fc.assert(
      fc.property(fc.array(line, { maxLength: 12 }), (lines) => isSound(bytesOf(lines.join('\n')))),
      { numRuns: RUNS },
    );
  });

  it('bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), isSound), { numRuns: RUNS });
  });
});

describe('a single changed digit', () => {
  /** Every digit of the data in turn, put in the place of each other digit of its kind. */
  function changes(text: string): string[] {
    const begin = text.indexOf('(X++(Y..Y))') + 12;
    const end = text.indexOf('##END');
    const kinds = ['0123456789', '@ABCDEFGHIabcdefghi', '%JKLMNOPQRjklmnopqr', 'STUVWXYZs'];
    const changed: string[] = [];
    for (let at = begin; at < end; at++) {
      const kind = kinds.find((letters) => letters.includes(text[at]!));
      const other =
        kind === undefined
          ? undefined
          : kind[(kind.indexOf(text[at]!) + 1 + (at % (kind.length - 1))) % kind.length];
      if (other !== undefined && other !== text[at])
        changed.push(text.slice(0, at) + other + text.slice(at + 1));
    }
    return changed;
  }

  function shareNoticed(text: string): number {
    const original = readInstrumentFile(bytesOf(text));
    const all = changes(text);
    const same = (a: Float64Array, b: Float64Array) =>
      a.length === b.length && a.every((v, i) => v === b[i]);
    const noticed = all.filter((one) => {
      const reading = readInstrumentFile(bytesOf(one));
      if (!reading.ok || !original.ok) return true;
      const [trace, before] = [reading.traces[0]!, original.traces[0]!];
      // A changed abscissa that stays within its tolerance moves nothing.
      return trace.warnings.length > 0 || (same(trace.x, before.x) && same(trace.y, before.y));
    });
    return noticed.length / all.length;
  }

  it('in DIFDUP is always noticed, or changes nothing', () => {
    expect(shareNoticed(writeJcamp(banded(150), { form: 'difdup' }))).toBe(1);
  });

  it('in plain values is mostly not: the form has no check', () => {
    expect(shareNoticed(writeJcamp(banded(150)))).toBeLessThan(0.5);
  });
});
