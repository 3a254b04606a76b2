import { printHill } from '../../chemistry/hill.ts';
import type { Substance } from '../../chemistry/substance.ts';
import { formatNumber } from '../../quantity/print.ts';
import type { Agreement, DerivationStep, Statement, Weight } from '../statement.ts';
import type { ExpectedIon } from './ions.ts';
import { isotopePattern } from './isotopes.ts';
import { NOISE_SHARE, mzText, peakAt } from './peaks.ts';
import type { PeakTable } from './peaks.ts';
import type { Ionisation, MassPeak } from './schema.ts';

/** Peaks this strong above the heaviest isotope peak of the molecule cannot be its own. */
const HEAVIER_SHARE = 0.05;

const LIMITS =
  'Isomers have the same mass, and a mass says nothing of how much else is there that does not ionise.';

/** The expected ion that the table shows, the usual ones first, the strongest of them. */
export function foundIon(
  table: PeakTable,
  ions: readonly ExpectedIon[],
): { readonly ion: ExpectedIon; readonly peak: MassPeak } | undefined {
  const seen = ions.flatMap((ion) => {
    const peak = peakAt(table, ion);
    return peak === undefined || peak.intensity < NOISE_SHARE ? [] : [{ ion, peak }];
  });
  const usual = seen.filter(({ ion }) => ion.usual);
  const list = usual.length > 0 ? usual : seen;
  return list.reduce<(typeof list)[number] | undefined>(
    (best, one) => (best === undefined || one.peak.intensity > best.peak.intensity ? one : best),
    undefined,
  );
}

/** The strongest peak that is too heavy for the molecule and its isotopes. */
function heavierPeak(table: PeakTable, ions: readonly ExpectedIon[]): MassPeak | undefined {
  const top = Math.max(
    ...ions.map((ion) => {
      const last = isotopePattern(ion.composition)
        .filter(({ ratio }) => ratio > 0.001)
        .at(-1);
      return ion.exact + (last?.above ?? 0) + 1.5;
    }),
  );
  return table.peaks
    .filter((peak) => peak.mz > top && peak.intensity >= HEAVIER_SHARE)
    .sort((a, b) => b.intensity - a.intensity)[0];
}

function massError(table: PeakTable, ion: ExpectedIon, peak: MassPeak): string {
  const error = ((peak.mz - ion.exact) / ion.exact) * 1e6;
  return table.massU_ppm === undefined
    ? ''
    : `, ${formatNumber(error, 2)} ppm from the exact mass (u = ${formatNumber(table.massU_ppm, 2)} ppm)`;
}

/** Good enough to tell formulas of one nominal mass apart: 5 ppm, as journals ask (common practice). */
const ACCURATE_PPM = 5;

function isAccurate({ massU_ppm }: PeakTable): boolean {
  return massU_ppm !== undefined && massU_ppm <= ACCURATE_PPM;
}

/** Nitrogen rule: a molecule with an odd number of N has an odd nominal mass (McLafferty, common practice). */
function nitrogenStep(product: Substance, ion: ExpectedIon): DerivationStep[] {
  const count = product.composition?.counts.get('N') ?? 0;
  if (ion.label !== 'M+•') return [];
  const odd = count % 2 === 1;
  return [
    {
      label: 'Nitrogen rule',
      value: `${count} N: an ${odd ? 'odd' : 'even'} mass is expected, ${ion.nominal} is ${ion.nominal % 2 === 1 ? 'odd' : 'even'}`,
      source: 'common practice',
    },
  ];
}

interface Outcome {
  readonly weight?: Weight;
  readonly measured: string;
  readonly agreement: Agreement;
  readonly says: string;
  readonly limits: string;
}

/** Under an accurate mass: the peak that has the nominal mass of a usual ion and not its exact one. */
function offPeak(table: PeakTable, ions: readonly ExpectedIon[]) {
  const { massU_ppm, ...rough } = table;
  return massU_ppm === undefined || !isAccurate(table)
    ? undefined
    : foundIon(
        rough,
        ions.filter((ion) => ion.usual),
      );
}

/** Without nitrogen nothing is sure to take up a proton; none is sure to lose one (common practice). */
function isSureToIonise({ composition }: Substance, ionisation: Ionisation): boolean {
  return ionisation === 'CI' || (ionisation === 'ESI+' && (composition?.counts.has('N') ?? false));
}

function missing(
  table: PeakTable,
  ions: readonly ExpectedIon[],
  product: Substance,
  ionisation: Ionisation,
): Outcome {
  const { name } = product;
  const heavier = heavierPeak(table, ions);
  const top = table.peaks.filter((peak) => peak.intensity >= NOISE_SHARE).at(-1)!;
  const measured = `no such peak; the heaviest is m/z ${mzText(top.mz)}`;
  if (heavier !== undefined)
    return {
      measured,
      weight: ionisation === 'EI' || isSureToIonise(product, ionisation) ? 'moderate' : 'weak',
      agreement: 'disagrees',
      says: `The peak at m/z ${mzText(heavier.mz)} is too heavy for ${name}, and no ion of ${name} is seen.`,
      limits: LIMITS,
    };
  const off = offPeak(table, ions);
  if (off !== undefined)
    return {
      measured: `m/z ${mzText(off.peak.mz)}${massError(table, off.ion, off.peak)}`,
      agreement: 'disagrees',
      says: `The peak at m/z ${mzText(off.peak.mz)} has the nominal mass of ${off.ion.label}, but not the exact mass of the formula of ${name}.`,
      limits:
        'It holds as far as the calibration of the instrument does, and for a peak of one ion.',
    };
  if (ionisation === 'EI')
    return {
      measured,
      agreement: 'cannotTell',
      says: `No molecular ion of ${name} is seen, which decides nothing by itself.`,
      limits:
        'Under electron ionisation alcohols, acetals, branched chains and many esters show no molecular ion.',
    };
  return {
    measured,
    agreement: 'disagrees',
    weight: isSureToIonise(product, ionisation) ? 'moderate' : 'weak',
    says: `None of the ions that ${name} should give is seen.`,
    limits: `A substance without a basic or acidic group may not ionise this way at all. ${LIMITS}`,
  };
}

/** Peaks too heavy for the molecule, where the ionisation makes none: it may be a fragment itself. */
function besideHeavier(
  table: PeakTable,
  ions: readonly ExpectedIon[],
  name: string,
  ionisation: Ionisation,
): Pick<Outcome, 'agreement' | 'says'> | undefined {
  const heavier = ionisation === 'EI' || ionisation === 'CI' ? heavierPeak(table, ions) : undefined;
  if (heavier === undefined) return undefined;
  return {
    agreement: 'cannotTell',
    says: `The mass of ${name} is found, but the peak at m/z ${mzText(heavier.mz)} is too heavy for it: this one may be a fragment of something else.`,
  };
}

/** Whether an ion of the whole molecule is in the table. */
export function ionStatement(
  table: PeakTable,
  ions: readonly ExpectedIon[],
  product: Substance,
  ionisation: Ionisation,
): Statement {
  const found = foundIon(table, ions);
  const usual = ions.filter((ion) => ion.usual);
  const digits = table.massU_ppm === undefined ? 1 : 4;
  const expected = usual.map((ion) => `${ion.label} ${ion.exact.toFixed(digits)}`).join(', ');
  const outcome: Outcome =
    found === undefined
      ? missing(table, ions, product, ionisation)
      : {
          measured:
            `${found.ion.label} at m/z ${mzText(found.peak.mz)}, ` +
            `${formatNumber(100 * found.peak.intensity, 3)} % of the base peak${massError(table, found.ion, found.peak)}`,
          agreement: 'agrees',
          says: `The mass of ${product.name} is found: consistent with its formula.`,
          limits: LIMITS,
          weight: isAccurate(table) ? 'strong' : 'moderate',
          ...besideHeavier(table, ions, product.name, ionisation),
        };
  const steps = usual.map((ion): DerivationStep => ({
    label: ion.label,
    formula: printHill(ion.composition),
    value: `m/z ${ion.exact.toFixed(4)}, nominal ${mzText(ion.nominal)}`,
    source: ion.source,
  }));
  const shown = found?.ion ?? usual[0];
  return {
    id: 'mass-ion',
    technique: 'mass',
    about: 'identity',
    substance: product.name,
    what: 'Ion of the molecule',
    expected,
    weight: 'moderate',
    ...outcome,
    derivation: [...steps, ...(shown === undefined ? [] : nitrogenStep(product, shown))],
  };
}
