import { formatWithUncertainty } from '../../quantity/print.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Subject, Subjects } from '../subject.ts';
import { isNamed } from './named.ts';
import type { NamedPeak, Naming } from './named.ts';
import type { ChromatogramEntered } from './schema.ts';

/** A chromatogram with its peaks named: what every statement is made from. */
export interface Run {
  readonly entered: ChromatogramEntered;
  readonly subjects: Subjects;
  readonly naming: Naming;
  readonly product: string;
  readonly productPeaks: readonly NamedPeak[];
}

export function runOf(entered: ChromatogramEntered, subjects: Subjects, naming: Naming): Run {
  const own = subjects.product;
  return {
    entered,
    subjects,
    naming,
    product: own?.substance.name ?? 'the product',
    productPeaks: own === undefined ? [] : peaksNamed(own, naming.counted),
  };
}

export function peaksNamed(subject: Subject, peaks: readonly NamedPeak[]): NamedPeak[] {
  return peaks.filter(({ name }) => isNamed(subject, name));
}

export function minutes({ entered: { retention_min } }: NamedPeak): string {
  return `${retention_min.toFixed(2)} min`;
}

/** "97.3 ± 0.4 %": a share with twice its standard uncertainty. */
export function percent(share: Uncertain): string {
  return `${formatWithUncertainty(100 * share.value, 200 * standardUncertainty(share))} %`;
}

const DETECTOR_LIMITS: Readonly<Record<ChromatogramEntered['detector'], string>> = {
  fid: 'A flame detector hardly sees water, and counts carbons, not mass.',
  tcd: 'A thermal detector answers differently to each substance.',
  uv:
    'A UV detector sees each substance as strongly as it absorbs at that wavelength, ' +
    'and some not at all.',
  refractiveIndex: 'A refractive index detector answers differently to each substance.',
  ms:
    'How strongly a substance is ionised differs much, so that these areas say little ' +
    'of amounts.',
  other: 'Detectors answer differently to each substance.',
};

export function detectorLimits({ entered }: Run): string {
  return DETECTOR_LIMITS[entered.detector];
}

export function unseen({ entered }: Run): string {
  return entered.method === 'gc'
    ? 'What does not evaporate (salts, polymers, heavy substances) or decomposes in ' +
        'the injector is not seen.'
    : 'What stays on the column or does not absorb is not seen.';
}
