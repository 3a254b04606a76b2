import { subtractComposition } from '../../chemistry/composition.ts';
import type { Composition } from '../../chemistry/composition.ts';
import { readFormula } from '../../chemistry/formula.ts';
import fragmentsTable from '../../facts/mass_fragments.json' with { type: 'json' };
import lossesTable from '../../facts/mass_losses.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';
import type { ExpectedIon } from './ions.ts';
import { NOISE_SHARE } from './peaks.ts';
import type { PeakTable } from './peaks.ts';

/** A fragment that a usual loss or a usual ion explains. */
export interface NamedFragment {
  readonly mz: number;
  readonly intensity: number;
  /** "M − 15, loss of methyl (branched chains; ketones; ethers)", "tropylium (benzyl)". */
  readonly says: string;
  readonly source: string;
}

/** Fragments under this share of the base peak are not named. */
const NAMED_SHARE = 4 * NOISE_SHARE;

/** A molecule can lose or give only what it holds. */
function holds(whole: Composition, formula: string): boolean {
  const reading = readFormula(formula);
  if (!reading.ok) return false;
  return [...subtractComposition(whole, reading.composition).counts.values()].every((n) => n > 0);
}

/** Names of the fragments of one molecule, the strongest first: what is usual, not a prediction. */
export function namedFragments(
  table: PeakTable,
  molecule: Composition,
  ion: ExpectedIon,
): NamedFragment[] {
  const strong = table.peaks.filter((peak) => peak.intensity >= NAMED_SHARE);
  return strong
    .flatMap((peak): NamedFragment[] => {
      // Differences of masses have small defects: whole numbers from them are safe.
      const lost = Math.round(ion.exact - peak.mz);
      const losses = rowsOf(lossesTable).filter(
        (row) => Number(row['loss_u']) === lost && holds(molecule, row['formula']!),
      );
      const ions = rowsOf(fragmentsTable).filter(
        (row) => Number(row['mz']) === Math.round(peak.mz) && holds(molecule, row['formula']!),
      );
      const named = [
        ...losses.map((row) => ({
          says: `M − ${lost}, loss of ${row['what']} (${row['from']})`,
          source: row['source']!,
        })),
        ...ions.map((row) => ({ says: row['what']!, source: row['source']! })),
      ];
      if (named.length === 0) return [];
      const says = named.map((one) => one.says).join('; ');
      return [{ mz: peak.mz, intensity: peak.intensity, says, source: named[0]!.source }];
    })
    .sort((a, b) => b.intensity - a.intensity);
}
