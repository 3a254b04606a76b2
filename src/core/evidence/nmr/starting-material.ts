import { hydrogenEnvironments } from '../../chemistry/environments.ts';
import type { Environments } from '../../chemistry/environments.ts';
import type { Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { expectationsOf } from './match-signals.ts';
import { distanceTo, signalText } from './signal.ts';
import type { ReadSpectrum } from './spectrum.ts';

/** A window must be this far from any of the product's before its emptiness says something. */
const APART_PPM = 0.1;

interface Telling {
  readonly label: string;
  readonly low_ppm: number;
  readonly high_ppm: number;
  readonly source: string;
}

/** Hydrogens of the starting material where the product has none. */
function tellingOf(own: Environments, product: Environments): Telling[] {
  const taken = expectationsOf(product).map(({ window }) => window);
  return expectationsOf(own).flatMap(({ window }, i) => {
    if (own.list[i]!.exchangeable) return [];
    const clear = taken.every(
      (other) =>
        window.low_ppm - other.high_ppm > APART_PPM || other.low_ppm - window.high_ppm > APART_PPM,
    );
    return clear ? [{ label: `${own.list[i]!.label} ${window.because}`, ...window }] : [];
  });
}

/**
 * Whether the places are empty where a starting material would show and the product could not.
 * Only where such a place is; nothing is said otherwise.
 */
export function startingMaterialStatements(
  spectrum: ReadSpectrum,
  subjects: Subjects,
): Statement[] {
  const { environments, entered, unexplained } = spectrum;
  if (environments === undefined || spectrum.partition.startingMaterial.length > 0) return [];
  return subjects.others
    .filter((one) => one.role === 'startingMaterial')
    .flatMap(({ substance }, k): Statement[] => {
      const reading =
        substance.smiles === undefined ? undefined : hydrogenEnvironments(substance.smiles);
      if (reading?.ok !== true) return [];
      const telling = tellingOf(reading, environments);
      if (telling.length === 0) return [];
      const seen = unexplained.filter((i) =>
        telling.some((w) => distanceTo(entered.signals[i]!, w.low_ppm, w.high_ppm) === 0),
      );
      const places = telling
        .map((w) => `${w.low_ppm.toFixed(1)}–${w.high_ppm.toFixed(1)} ppm (${w.label})`)
        .join(', ');
      const at = seen.map((i) => signalText(entered.signals[i]!)).join(', ');
      return [
        {
          id: `nmr-starting-material-${k + 1}`,
          technique: 'nmr',
          about: 'startingMaterial',
          substance: substance.name,
          what: `Places of ${substance.name} alone`,
          measured: seen.length === 0 ? 'no signal there' : `${at} ppm`,
          expected: `no signal in ${places}`,
          agreement: seen.length === 0 ? 'agrees' : 'disagrees',
          weight: 'moderate',
          says:
            seen.length === 0
              ? `Where ${substance.name} alone would show there is no signal: none of it is seen.`
              : `The signal at ${at} ppm can be that of ${substance.name}: some may be left.`,
          limits:
            'Signals that nobody wrote down are not there for this check, and below about 1 % of the product a signal is lost in the noise.',
          derivation: telling.map((w) => ({
            label: w.label,
            value: `${w.low_ppm.toFixed(1)}–${w.high_ppm.toFixed(1)} ppm`,
            source: w.source,
          })),
        },
      ];
    });
}
