import type { Substance } from '../../chemistry/substance.ts';
import { formatNumber } from '../../quantity/print.ts';
import type { Statement } from '../statement.ts';
import type { ExpectedIon } from './ions.ts';
import { namedFragments } from './losses.ts';
import { mzText, peakAt } from './peaks.ts';
import type { PeakTable } from './peaks.ts';
import type { Ionisation } from './schema.ts';

/** Fragments shown at most. */
const MOST_SHOWN = 8;

/** The base peak and the fragments that usual losses explain; of electron ionisation only. */
export function fragmentStatement(
  table: PeakTable,
  ions: readonly ExpectedIon[],
  product: Substance,
  ionisation: Ionisation,
): Statement[] {
  const ion = ions[0];
  if (ionisation !== 'EI' || ion === undefined || product.composition === undefined) return [];
  const named = namedFragments(table, product.composition, ion).slice(0, MOST_SHOWN);
  const base = table.base;
  const isMolecule = peakAt(table, ion) === base;
  const explained = isMolecule || named.some((one) => one.mz === base.mz);
  const mz = mzText(base.mz);
  return [
    {
      id: 'mass-fragments',
      technique: 'mass',
      about: 'identity',
      substance: product.name,
      what: 'Base peak and fragments',
      measured: [
        `base peak m/z ${mz}`,
        ...named
          .filter((one) => one.mz !== base.mz)
          .map((one) => `${mzText(one.mz)} (${formatNumber(100 * one.intensity, 2)} %)`),
      ].join(', '),
      expected: '',
      agreement: explained ? 'agrees' : 'cannotTell',
      weight: 'weak',
      says: isMolecule
        ? `The base peak is the molecular ion of ${product.name}.`
        : explained
          ? `The base peak at m/z ${mz} is a usual fragment of such a molecule.`
          : `The base peak at m/z ${mz} is not among the usual fragments of ${product.name}.`,
      limits:
        'The names come from a table of usual losses and ions that the formula allows, not from the structure; other molecules give the same fragments.',
      derivation: named.map((one) => ({
        label: `m/z ${mzText(one.mz)}, ${formatNumber(100 * one.intensity, 2)} %`,
        value: one.says,
        source: one.source,
      })),
    },
  ];
}
