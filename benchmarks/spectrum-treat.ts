import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { infraredOf } from '../src/core/evidence/spectrum/to-infrared.ts';
import type { MeasuredTrace } from '../src/core/evidence/spectrum/trace.ts';
import { correctAtr } from '../src/core/evidence/spectrum/treat/atr.ts';
import { baselineOf } from '../src/core/evidence/spectrum/treat/baseline.ts';
import { qualityOf } from '../src/core/evidence/spectrum/treat/quality.ts';
import { spectrumPeaks } from '../src/core/evidence/spectrum/treat/spectrum-peaks.ts';
import { seededRandom } from '../src/core/quantity/random.ts';
import { benchmarks } from './files.ts';
import type { Item } from './item.ts';
import { median, warmTimesOf } from './measure.ts';

const POINTS = 4000;
const ROUNDS = 100;
const PYTHONS = ['/usr/bin/python3', 'python3'];

interface Scipy {
  readonly times_ms: readonly number[];
  readonly peaks: number;
  readonly version: string;
}

/** A spectrum of 33 bands as an instrument records it: transmittance, tilted, with noise. */
function recorded(): MeasuredTrace {
  const { uniform, normal } = seededRandom(7);
  const bands = Array.from({ length: 30 }, () => ({
    position: 500 + 1300 * uniform(),
    width: 8 + 25 * uniform(),
    height: 0.05 + uniform(),
  }));
  bands.push({ position: 3340, width: 250, height: 0.6 });
  bands.push(
    { position: 2960, width: 20, height: 0.8 },
    { position: 2870, width: 20, height: 0.5 },
  );
  const x = Float64Array.from({ length: POINTS }, (_, i) => 400 + (3600 * i) / (POINTS - 1));
  const y = x.map((place) => {
    let a = 0.02 + 2e-5 * (place - 400);
    for (const { position, width, height } of bands)
      a += height / (1 + 4 * ((place - position) / width) ** 2);
    return 10 ** -a + 0.001 * normal();
  });
  return {
    title: '33 bands',
    technique: 'infrared',
    kind: 'curve',
    x,
    y,
    xUnit: '1/cm',
    yUnit: 'transmittance',
    headers: {},
    warnings: [],
  };
}

function treated(trace: MeasuredTrace) {
  const got = infraredOf(trace);
  if (!got.ok) throw new Error(got.problem.message);
  const { wavenumber_percm: x, absorbance: y } = got.spectrum;
  const quality = qualityOf(got.spectrum, baselineOf(x, y));
  return { spectrum: got.spectrum, peaks: spectrumPeaks(got.spectrum, quality) };
}

function inScipy(trace: MeasuredTrace): Scipy | undefined {
  const input = JSON.stringify({ x: [...trace.x], y: [...trace.y], rounds: ROUNDS });
  for (const python of PYTHONS) {
    const script = join(benchmarks, 'spectrum_treat.py');
    const done = spawnSync(python, [script], { input, encoding: 'utf8' });
    if (done.status === 0) return JSON.parse(done.stdout) as Scipy;
  }
  return undefined;
}

/** An infrared spectrum of 4,000 points made ready: absorbance, baseline, quality, bands. */
export function spectrumTreat(): Item[] {
  const trace = recorded();
  const times_ms = warmTimesOf(ROUNDS, () => treated(trace));
  const sort_ms = warmTimesOf(ROUNDS, () => Float64Array.from(trace.y).sort());
  const { peaks, spectrum } = treated(trace);
  const scipy = inScipy(trace);
  const found = `${peaks.filter(({ kind }) => kind === 'peak').length} peaks, ${peaks.filter(({ kind }) => kind === 'shoulder').length} shoulders.`;
  const sorting = { what: 'sorting as many numbers', times_ms: sort_ms };
  return [
    {
      what: 'A spectrum of 4,000 points treated: absorbance, baseline, quality, bands',
      times_ms,
      budget_ms: 10,
      baseline:
        scipy === undefined
          ? { ...sorting, what: `${sorting.what} (scipy is NOT here)` }
          : { what: `the bands alone in scipy ${scipy.version}`, times_ms: scipy.times_ms },
      remarks: [
        found,
        scipy === undefined
          ? 'No python3 with scipy was found: the comparison with it is left out.'
          : `scipy: ${scipy.peaks} peaks; second derivative, peaks and widths, without baseline and quality. ` +
            `Sorting as many numbers: ${median(sort_ms).toFixed(2)} ms.`,
      ],
    },
    {
      what: 'The same spectrum corrected as if it were ATR, 12 rounds at most',
      times_ms: warmTimesOf(9, () => correctAtr(spectrum)),
      baseline: sorting,
      remarks: ['Asked for by hand; not part of the budget.'],
    },
  ];
}
