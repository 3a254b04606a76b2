import { formatNumber, formatWithUncertainty } from '../../quantity/print.ts';
import type { Agreement, DerivationStep, Statement } from '../statement.ts';
import { foundIon } from './ion-statement.ts';
import type { ExpectedIon } from './ions.ts';
import { isotopePattern } from './isotopes.ts';
import { NOISE_SHARE, peakAt } from './peaks.ts';
import type { PeakTable } from './peaks.ts';
import type { Ionisation } from './schema.ts';

/** Isotope peaks expected below this share of M are not compared. */
const LEAST_RATIO = 0.02;
/** How far up the pattern is compared: M + 6 is three halogens. */
const FURTHEST = 6;
/** Coverage of the comparison, as in the rest of the program. */
const K = 2;

interface Compared {
  readonly above: number;
  readonly expected: number;
  readonly measured: number;
  readonly u: number;
  readonly written: boolean;
  readonly fits: boolean;
}

/** M + 1 and M + 2 are always looked at, so that a halogen that should not be there is noticed. */
function compare(table: PeakTable, ion: ExpectedIon, own: number): Compared[] {
  const pattern = isotopePattern(ion.composition);
  const expectedAt = (above: number) => pattern.find((p) => p.above === above)?.ratio ?? 0;
  const steps = Array.from({ length: FURTHEST + 3 }, (_, i) => i - 2).filter(
    (above) =>
      above !== 0 &&
      (expectedAt(above) >= LEAST_RATIO || above === 1 || above === 2) &&
      // Below M stand fragments, too, so that only a pattern that reaches there is compared.
      (above > 0 || expectedAt(above) >= LEAST_RATIO),
  );
  return steps.map((above) => {
    const peak = peakAt(table, ion, above);
    const intensity = peak?.intensity ?? 0;
    const expected = expectedAt(above);
    const measured = intensity / own;
    // A peak that nobody wrote down may be as strong as the weakest that somebody did.
    const reading = peak === undefined ? table.least : table.u(intensity);
    const u = Math.hypot(reading, measured * table.u(own)) / own;
    const fits = Math.abs(measured - expected) <= K * u;
    return { above, expected, measured, u, written: peak !== undefined, fits };
  });
}

const nameOf = (above: number): string => (above > 0 ? `M + ${above}` : `M − ${-above}`);

/**
 * Outside M + 1, a misfit speaks against the formula. M + 1 alone may be too strong where the ion
 * takes up a hydrogen in the source, as esters and amines do.
 */
function agreementOf(compared: readonly Compared[], ionisation: Ionisation): Agreement {
  const misfits = compared.filter((one) => !one.fits);
  if (misfits.length === 0) return 'agrees';
  const only = misfits.every((one) => one.above === 1 && one.measured > one.expected);
  return only && ionisation === 'EI' ? 'cannotTell' : 'disagrees';
}

function sayingOf(name: string, agreement: Agreement, misfits: readonly Compared[]): string {
  if (agreement === 'agrees') return `The isotope peaks are those of the formula of ${name}.`;
  const list = misfits.map((one) => nameOf(one.above)).join(' and ');
  if (agreement === 'cannotTell')
    return `${list} is stronger than the isotopes of ${name} make it; the ion may have taken up a hydrogen.`;
  const two = misfits.find((one) => one.above === 2);
  if (two !== undefined && two.measured > two.expected)
    return `${list} is stronger than the formula of ${name} allows: chlorine, bromine or sulfur may be there, or another ion.`;
  return `${list} is not as strong as the formula of ${name} asks: its halogens or other elements are not all there.`;
}

/** The isotope peaks of the ion that was found, compared with its formula. */
export function patternStatement(
  table: PeakTable,
  ions: readonly ExpectedIon[],
  name: string,
  ionisation: Ionisation,
): Statement[] {
  const found = foundIon(table, ions);
  if (found === undefined) return [];
  const { ion, peak } = found;
  const compared = compare(table, ion, peak.intensity);
  // What the pattern asks for has to stand out of the noise before anything can be said.
  const readable = compared.some(
    (one) => Math.max(one.expected, one.measured) * peak.intensity >= 2 * NOISE_SHARE,
  );
  const misfits = compared.filter((one) => !one.fits);
  // Peaks that nobody wrote down fit anything that they may be hidden in
  const seen = compared.some((one) => one.measured > 0) || misfits.length > 0;
  const agreement = readable && seen ? agreementOf(compared, ionisation) : 'cannotTell';
  const halogens = compared.some((one) => one.above === 2 && one.expected > 0.2);
  const percent = (ratio: number) => `${formatNumber(100 * ratio, 3)} %`;
  return [
    {
      id: 'mass-isotopes',
      technique: 'mass',
      about: 'identity',
      substance: name,
      what: `Isotope peaks of ${ion.label}`,
      measured: compared
        .map(
          ({ above, measured, u, written }) =>
            `${nameOf(above)}: ` +
            (written
              ? `${formatWithUncertainty(100 * measured, 100 * K * u)} %`
              : 'not written down'),
        )
        .join(', '),
      expected: compared.map((one) => `${nameOf(one.above)}: ${percent(one.expected)}`).join(', '),
      agreement,
      weight: halogens || agreement === 'disagrees' ? 'moderate' : 'weak',
      says: !seen
        ? 'No isotope peak of the ion was written down.'
        : readable
          ? sayingOf(name, agreement, misfits)
          : 'The ion is too weak for its isotope peaks to be read.',
      limits:
        'Intensities of weak peaks are uncertain, other ions can lie at M + 1 and M + 2, and formulas with the same halogens look nearly alike.',
      derivation: compared.map((one): DerivationStep => ({
        label: nameOf(one.above),
        formula: 'I(M + k) / I(M)',
        value: `${percent(one.measured)} seen, ${percent(one.expected)} from the isotopes, u = ${percent(one.u)}`,
        source: 'Meija et al., Pure Appl. Chem. 2016, 88, 293',
      })),
    },
  ];
}
