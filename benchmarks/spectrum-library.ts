import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fingerprintOf, PLACES } from '../src/core/evidence/spectrum/library/fingerprint.ts';
import type { Fingerprint } from '../src/core/evidence/spectrum/library/fingerprint.ts';
import { mostAlike, packLibrary } from '../src/core/evidence/spectrum/library/search.ts';
import type { InfraredSpectrum } from '../src/core/evidence/spectrum/infrared.ts';
import { seededRandom } from '../src/core/quantity/random.ts';
import { benchmarks } from './files.ts';
import type { Item } from './item.ts';
import { median, warmTimesOf } from './measure.ts';

const SPECTRA = 10_000;
/** Of these bands every spectrum is made, so that ten thousand need no ten thousand baselines. */
const DRAWN = 400;
const ROUNDS = 40;
const PYTHONS = ['/usr/bin/python3', 'python3'];

interface Numpy {
  readonly times_ms: readonly number[];
  readonly best: number;
  readonly version: string;
}

function drawn(seed: number): InfraredSpectrum {
  const { uniform, normal } = seededRandom(seed);
  const bands = Array.from({ length: 20 }, () => ({
    position: 620 + 3300 * uniform() ** 1.5,
    width: 8 + 25 * uniform(),
    height: 0.05 + uniform(),
  }));
  const x = Float64Array.from({ length: 1700 }, (_, i) => 600 + 2 * i);
  const absorbance = x.map((place) => {
    let a = 0.001 * normal();
    for (const { position, width, height } of bands)
      a += height / (1 + 4 * ((place - position) / width) ** 2);
    return a;
  });
  return {
    title: `drawn ${seed}`,
    wavenumber_percm: x,
    absorbance,
    recordedAs: 'absorbance',
    gaps: [],
    positionU_percm: 0.5,
  };
}

/** Mixtures of the drawn ones, each another. */
function mixtures(drawnOnes: readonly Fingerprint[]) {
  const { uniform } = seededRandom(11);
  const pick = () => drawnOnes[Math.floor(drawnOnes.length * uniform())]!;
  return Array.from({ length: SPECTRA }, (_, n) => {
    const [a, b, share] = [pick(), pick(), uniform()];
    const slopes = a.slopes.map((value, i) => share * value + (1 - share) * b.slopes[i]!);
    return { id: `spectrum-${n}`, fingerprint: { ...a, slopes } };
  });
}

function inNumpy(slopes: Int8Array, asked: Int8Array): Numpy | undefined {
  const input = JSON.stringify({
    slopes: Buffer.from(slopes.buffer).toString('base64'),
    asked: [...asked],
    places: PLACES,
    rounds: ROUNDS,
  });
  for (const python of PYTHONS) {
    const script = join(benchmarks, 'spectrum_library.py');
    const done = spawnSync(python, [script], { input, encoding: 'utf8' });
    if (done.status === 0) return JSON.parse(done.stdout) as Numpy;
  }
  return undefined;
}

/** What is a spectrum most like, of ten thousand in a library. */
export function spectrumLibrary(): Item[] {
  const one = drawn(1);
  const prints = Array.from({ length: DRAWN }, (_, n) => fingerprintOf(drawn(n + 1))!);
  const given = mixtures(prints);
  const library = packLibrary(given);
  const asked = given[4321]!.fingerprint;
  const times_ms = warmTimesOf(ROUNDS, () => mostAlike(library, asked, 10));
  const [best] = mostAlike(library, asked, 10);
  if (best?.id !== 'spectrum-4321') throw new Error('the spectrum is not most like itself');
  const numpy = inNumpy(library.slopes, asked.slopes);
  const sums_ms = warmTimesOf(ROUNDS, () => library.slopes.reduce((sum, each) => sum + each, 0));
  const adding = { what: 'adding up as many numbers', times_ms: sums_ms };
  const print_ms = warmTimesOf(ROUNDS, () => fingerprintOf(one));
  return [
    {
      what: `The ten most alike of ${SPECTRA.toLocaleString('en')} spectra`,
      times_ms,
      budget_ms: 100,
      baseline:
        numpy === undefined
          ? { ...adding, what: `${adding.what} (numpy is NOT here)` }
          : { what: `the matrix product in numpy ${numpy.version}`, times_ms: numpy.times_ms },
      remarks: [
        numpy === undefined
          ? 'No python3 with numpy was found: the comparison with it is left out.'
          : `numpy: three products of float32, one for each shift; ${numpy.best === 4321 ? 'the same best' : 'ANOTHER best'}.`,
        `The library takes ${((SPECTRA * PLACES) / 1e6).toFixed(1)} MB; adding up its numbers takes ${median(sums_ms).toFixed(1)} ms.`,
      ],
    },
    {
      what: `A library of ${SPECTRA.toLocaleString('en')} fingerprints packed`,
      times_ms: warmTimesOf(9, () => packLibrary(given)),
      baseline: adding,
      remarks: ['Done once after something was added.'],
    },
    {
      what: 'The fingerprint of one spectrum of 1,700 points',
      times_ms: print_ms,
      budget_ms: 5,
      baseline: adding,
      remarks: ['Baseline and blur included; reading the file is not.'],
    },
  ];
}
