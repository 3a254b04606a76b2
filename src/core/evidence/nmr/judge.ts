import type { Judged } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { conversionStatement, isomerStatements, purityStatement } from './amount-statements.ts';
import { contaminantStatements } from './contaminant-statements.ts';
import type { NmrEntered } from './schema.ts';
import { readSpectrum } from './spectrum.ts';
import { startingMaterialStatements } from './starting-material.ts';
import { structureStatements } from './structure-statements.ts';

/**
 * A 1H spectrum judged: the structure, what else is in the tube, how far the reaction went, and
 * how much of the mass is product where an internal standard was weighed in.
 */
export function judgeNmr(entered: NmrEntered, subjects: Subjects): Judged {
  const spectrum = readSpectrum(entered, subjects);
  const name = subjects.product?.substance.name ?? 'the product';
  const conversion = conversionStatement(spectrum, subjects);
  const purity = purityStatement(spectrum, subjects);
  return {
    statements: [
      ...structureStatements(spectrum, name),
      ...startingMaterialStatements(spectrum, subjects),
      ...conversion.statements,
      ...isomerStatements(spectrum),
      ...contaminantStatements(spectrum, subjects),
      ...purity.statements,
    ],
    diagnostics: [
      ...spectrum.diagnostics,
      ...conversion.diagnostics,
      ...purity.diagnostics,
      ...(spectrum.identification?.cutOff === true
        ? [
            {
              code: 'nmr-search-cut',
              severity: 'note' as const,
              message:
                'There are more ways to assign the signals than were tried: a better one may exist.',
              hint: 'Assign some signals by hand, with their numbers of hydrogens.',
            },
          ]
        : []),
    ],
  };
}
