import { printHill } from '../../chemistry/hill.ts';
import type { Substance } from '../../chemistry/substance.ts';
import { formatNumber } from '../../quantity/print.ts';
import type { Agreement, DerivationStep, Statement } from '../statement.ts';
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
  readonly measured: string;
  readonly agreement: Agreement;
  readonly says: string;
  readonly limits: string;
}

function missing(
  table: PeakTable,
  ions: readonly ExpectedIon[],
  name: string,
  ionisation: Ionisation,
): Outcome {
  const heavier = heavierPeak(table, ions);
  const top = table.peaks.filter((peak) => peak.intensity >= NOISE_SHARE).at(-1)!;
  const measured = `no such peak; the heaviest is m/z ${mzText(top.mz)}`;
  if (heavier !== undefined)
    return {
      measured,
      agreement: 'disagrees',
      says: `The peak at m/z ${mzText(heavier.mz)} is too heavy for ${name}, and no ion of ${name} is seen.`,
      limits: LIMITS,
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
    says: `None of the ions that ${name} should give is seen.`,
    limits: `A substance without a basic or acidic group may not ionise this way at all. ${LIMITS}`,
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
      ? missing(table, ions, product.name, ionisation)
      : {
          measured:
            `${found.ion.label} at m/z ${mzText(found.peak.mz)}, ` +
            `${formatNumber(100 * found.peak.intensity, 3)} % of the base peak${massError(table, found.ion, found.peak)}`,
          agreement: 'agrees',
          says: `The mass of ${product.name} is found: consistent with its formula.`,
          limits: LIMITS,
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
    ...outcome,
    weight: table.massU_ppm !== undefined && found !== undefined ? 'strong' : 'moderate',
    derivation: [...steps, ...(shown === undefined ? [] : nitrogenStep(product, shown))],
  };
}
