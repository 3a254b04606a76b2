import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { abscissaAt } from '../src/core/evidence/spectrum/read/axis.ts';
import { readInstrumentFile } from '../src/core/evidence/spectrum/read/read-file.ts';
import type { MeasuredTrace } from '../src/core/evidence/spectrum/trace.ts';
import { writeJcamp } from '../src/core/evidence/spectrum/write/jcamp.ts';
import { benchmarks } from './files.ts';
import type { Item, Timed } from './item.ts';
import { warmTimesOf } from './measure.ts';

const POINTS = 4000;
const REPEATS = 60;
/** Debian's own, for the packages that Debian brings; elsewhere whatever is found under the name. */
const PYTHONS = ['/usr/bin/python3', 'python3'];

/** Some thirty bands on a floor with noise in the fifth decimal, without chance. */
function trace(): MeasuredTrace {
  const axis = { first: 400, last: 4000 };
  const x = Float64Array.from({ length: POINTS }, (_, i) => abscissaAt(axis, POINTS, i));
  const y = x.map((at, i) => {
    let height = 0.02 + 2e-5 * Math.sin(i * i);
    for (let band = 0; band < 30; band++)
      height += (0.1 + (band % 7) / 10) / (1 + ((at - 450 - 117 * band) / (4 + (band % 5))) ** 2);
    return Math.round(1e5 * height) / 1e5;
  });
  return {
    title: 'benchmark',
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

interface Parsed {
  readonly times_ms: readonly number[];
  readonly points: number;
  readonly version: string;
}

/** The values of the same text with numpy, which checks nothing; undefined where there is no numpy. */
function inNumpy(text: string): Parsed | undefined {
  for (const python of PYTHONS) {
    const done = spawnSync(python, [join(benchmarks, 'spectrum_read.py')], {
      input: text,
      encoding: 'utf8',
    });
    if (done.status === 0) return JSON.parse(done.stdout) as Parsed;
  }
  return undefined;
}

/** The least that any reader of such a text must do: the numbers of the lines, nothing checked. */
function splitNumbers(text: string): number {
  let sum = 0;
  for (const line of text.slice(text.indexOf('(X++(Y..Y))') + 12).split('\n'))
    for (const word of line.split(' ')) sum += Number(word) || 0;
  return sum;
}

/** A spectrum of 4,000 points read and checked, in plain values and in differences. */
export function spectrumRead(): Item[] {
  const plain = writeJcamp(trace());
  const numpy = inNumpy(plain);
  const split: Timed = {
    what: 'splitting the plain text into numbers (numpy is NOT here)',
    times_ms: warmTimesOf(REPEATS, () => splitNumbers(plain)),
  };
  const baseline =
    numpy === undefined
      ? split
      : {
          what: `numpy ${numpy.version} taking the plain values, unchecked`,
          times_ms: numpy.times_ms,
        };
  return (['affn', 'difdup'] as const).map((form) => {
    const text = writeJcamp(trace(), { form });
    const bytes = new TextEncoder().encode(text);
    const reading = readInstrumentFile(bytes);
    if (!reading.ok) throw new Error(reading.problem.message);
    return {
      what: `a spectrum of 4,000 points read and checked, ${form === 'affn' ? 'plain values' : 'differences'}`,
      times_ms: warmTimesOf(REPEATS, () => readInstrumentFile(bytes)),
      budget_ms: 2,
      baseline,
      remarks: [`${(bytes.length / 1000).toFixed(1)} kB, ${reading.traces[0]!.x.length} points.`],
    };
  });
}
