import { formatNumber } from '../../quantity/print.ts';
import type { Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { foundIon } from './ion-statement.ts';
import { expectedIons } from './ions.ts';
import type { ExpectedIon } from './ions.ts';
import { isotopePattern } from './isotopes.ts';
import { mzText } from './peaks.ts';
import type { PeakTable } from './peaks.ts';
import type { Ionisation } from './schema.ts';

/** Ions of the product that would lie at the same place, with isotope peaks. */
function covers(product: readonly ExpectedIon[], ion: ExpectedIon): boolean {
  return product.some((own) =>
    isotopePattern(own.composition).some(
      ({ above, ratio }) => ratio > 0.005 && Math.abs(own.exact + above - ion.exact) < 0.5,
    ),
  );
}

function statementOf(
  table: PeakTable,
  ionisation: Ionisation,
  product: readonly ExpectedIon[],
  { substance }: Subject,
  number: number,
): Statement[] {
  const ions = expectedIons(substance, ionisation).filter(
    (ion) => ion.usual && !covers(product, ion),
  );
  if (ions.length === 0) return [];
  const found = foundIon(table, ions);
  const lighter =
    found !== undefined &&
    product.some((own) => own.exact > found.ion.exact && ionisation === 'EI');
  const agreement = found === undefined || lighter ? 'cannotTell' : 'disagrees';
  const places = ions.map((ion) => `${ion.label} ${ion.exact.toFixed(1)}`).join(', ');
  const mz = found === undefined ? '' : mzText(found.peak.mz);
  return [
    {
      id: `mass-starting-material-${number}`,
      technique: 'mass',
      about: 'startingMaterial',
      substance: substance.name,
      what: `Ion of ${substance.name}`,
      measured:
        found === undefined
          ? 'no such peak'
          : `m/z ${mz}, ${formatNumber(100 * found.peak.intensity, 2)} % of the base peak`,
      expected: `none at ${places}`,
      agreement,
      weight: 'weak',
      says:
        found === undefined
          ? `No ion of ${substance.name} is seen.`
          : lighter
            ? `The peak at m/z ${mz} can be ${substance.name} or a fragment of the product.`
            : `The peak at m/z ${mz} has the mass of ${substance.name}: some may be left.`,
      limits:
        'How strongly a substance ionises differs by orders of magnitude: no amount follows, and absence proves little.',
    },
  ];
}

/** Whether ions of the starting materials are there, where the product has none of the same mass. */
export function startingIonStatements(
  table: PeakTable,
  ionisation: Ionisation,
  subjects: Subjects,
): Statement[] {
  const product =
    subjects.product === undefined ? [] : expectedIons(subjects.product.substance, ionisation);
  return subjects.others
    .filter((one) => one.role === 'startingMaterial')
    .flatMap((one, i) => statementOf(table, ionisation, product, one, i + 1));
}
