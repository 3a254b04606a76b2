import { addCompositions, compositionOf, scaleComposition } from '../../chemistry/composition.ts';
import type { Composition } from '../../chemistry/composition.ts';
import { readFormula } from '../../chemistry/formula.ts';
import { readSmiles } from '../../chemistry/smiles.ts';
import type { Substance } from '../../chemistry/substance.ts';
import ionsTable from '../../facts/mass_ions.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';
import { ionMass } from './isotopes.ts';
import type { IonMass } from './isotopes.ts';
import type { Ionisation } from './schema.ts';

export interface ExpectedIon extends IonMass {
  /** "M+•", "[M+Na]+". */
  readonly label: string;
  readonly composition: Composition;
  /** One of the ions that this ionisation usually gives; the others are only recognised. */
  readonly usual: boolean;
  readonly source: string;
}

function formulaOf(text: string): Composition {
  const reading = readFormula(text);
  return reading.ok ? reading.composition : compositionOf([]);
}

const isWhole = (c: Composition): boolean => [...c.counts.values()].every((count) => count > 0);

/** A salt gives its own ion: the cation or the anion that the structure draws. */
function ionsOfSalt(smiles: string | undefined, ionisation: Ionisation): ExpectedIon[] {
  const reading = smiles === undefined ? undefined : readSmiles(smiles);
  if (reading?.ok !== true || !reading.ionic) return [];
  const sign = ionisation === 'ESI−' ? -1 : 1;
  return reading.fragments.flatMap((composition): ExpectedIon[] => {
    const mass = ionMass(composition);
    if (mass === undefined || Math.sign(composition.charge) !== sign) return [];
    if ([...composition.counts.values()].reduce((sum, n) => sum + n, 0) < 2) return [];
    const label = sign > 0 ? 'the cation' : 'the anion';
    return [{ ...mass, label, composition, usual: true, source: 'common practice' }];
  });
}

/** The ions of the whole molecule that an ionisation gives. */
export function expectedIons(substance: Substance, ionisation: Ionisation): ExpectedIon[] {
  const salt = ionsOfSalt(substance.smiles, ionisation);
  const whole = substance.composition;
  if (salt.length > 0 || whole === undefined || whole.charge !== 0) return salt;
  return rowsOf(ionsTable)
    .filter((row) => row['ionisation'] === ionisation)
    .flatMap((row): ExpectedIon[] => {
      const charge = Number(row['charge']);
      const added = addCompositions(
        scaleComposition(whole, Number(row['copies'])),
        formulaOf(row['adds']!),
        scaleComposition(formulaOf(row['removes']!), -1),
      );
      const composition = { counts: added.counts, charge };
      const mass = isWhole(composition) ? ionMass(composition) : undefined;
      if (mass === undefined) return [];
      return [
        {
          ...mass,
          label: row['label']!,
          composition,
          usual: row['usual'] === 'yes',
          source: row['source']!,
        },
      ];
    });
}
