import type { Substance } from '../../chemistry/substance.ts';
import { printHill } from '../../chemistry/hill.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { Judged, Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { fragmentStatement } from './fragment-statement.ts';
import { expectedIons } from './ions.ts';
import { ionStatement } from './ion-statement.ts';
import { unknownIsotopes } from './isotopes.ts';
import { patternStatement } from './pattern-statement.ts';
import { readPeaks } from './peaks.ts';
import type { PeakTable } from './peaks.ts';
import type { MassEntered } from './schema.ts';
import { startingIonStatements } from './starting-ion.ts';

function noIons(product: Substance): Diagnostic {
  const unknown = product.composition === undefined ? [] : unknownIsotopes(product.composition);
  if (product.composition !== undefined && unknown.length > 0)
    return {
      code: 'mass-no-isotopes',
      severity: 'note',
      message: `The masses of the isotopes of ${unknown.join(', ')} are not in the table.`,
      hint: `Compare the ions of ${printHill(product.composition)} by hand.`,
    };
  return {
    code: 'mass-no-formula',
    severity: 'note',
    message: `No ion of ${product.name} can be expected: its formula is not known or has no whole numbers.`,
    hint: 'Give the substance a formula or a structure in the document.',
  };
}

function ofProduct(
  table: PeakTable,
  entered: MassEntered,
  product: Substance,
): { readonly statements: Statement[]; readonly diagnostics: Diagnostic[] } {
  const ions = expectedIons(product, entered.ionisation);
  if (ions.length === 0) return { statements: [], diagnostics: [noIons(product)] };
  const pattern = patternStatement(table, ions, product.name, entered.ionisation);
  const fragments = fragmentStatement(table, ions, product, entered.ionisation);
  return {
    statements: [ionStatement(table, ions, product, entered.ionisation), ...pattern, ...fragments],
    diagnostics: [],
  };
}

/** A mass spectrum judged: the ions of the product, their isotopes, fragments, starting materials. */
export function judgeMass(entered: MassEntered, subjects: Subjects): Judged {
  const reading = readPeaks(entered);
  if (!reading.ok) return { statements: [], diagnostics: [reading.problem] };
  const product = subjects.product?.substance;
  const own =
    product === undefined
      ? { statements: [], diagnostics: [] }
      : ofProduct(reading.table, entered, product);
  return {
    statements: [
      ...own.statements,
      ...startingIonStatements(reading.table, entered.ionisation, subjects),
    ],
    diagnostics: own.diagnostics,
  };
}
