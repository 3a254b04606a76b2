import type { Diagnostic } from '../../diagnostic.ts';
import type { Judged } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { areaStatement, internalStandardSays, massStatement } from './composition.ts';
import { retentionStatement, startingMaterialStatements, unnamedStatement } from './identity.ts';
import { isNamed, namePeaks } from './named.ts';
import { conversionStatements, pairsSay, separationSays } from './pairs.ts';
import { runOf } from './run.ts';
import type { Run } from './run.ts';
import type { ChromatogramEntered } from './schema.ts';

/**
 * A gas or liquid chromatogram, judged from its table of peaks: what is the product, how much of
 * it, what else, how well parted. See docs/methods/chromatography.md.
 */
export function judgeChromatogram(entered: ChromatogramEntered, subjects: Subjects): Judged {
  const naming = namePeaks(entered);
  const run = runOf(entered, subjects, naming);
  if (naming.counted.length === 0)
    return { statements: [], diagnostics: [...naming.diagnostics, NOTHING] };
  const [standard, pairs, separation] = [
    internalStandardSays(run),
    pairsSay(run),
    separationSays(run),
  ];
  return {
    statements: [
      ...retentionStatement(run),
      ...areaStatement(run),
      ...massStatement(run),
      ...standard.statements,
      ...startingMaterialStatements(run),
      ...conversionStatements(run),
      ...unnamedStatement(run),
      ...pairs.statements,
      ...separation.statements,
    ],
    diagnostics: [
      ...naming.diagnostics,
      ...remarksOn(run),
      ...standard.diagnostics,
      ...pairs.diagnostics,
      ...separation.diagnostics,
    ],
  };
}

const NOTHING: Diagnostic = {
  code: 'no-peak-counted',
  severity: 'error',
  message: 'No peak of the sample is left to count.',
  hint: 'Look at the starting time and at which peaks are called solvent or blank.',
};

/** Peaks of a solvent of the experiment that are counted as if they were of the sample. */
function solventsCounted({ subjects, naming }: Run): Diagnostic[] {
  const solvents = subjects.others.filter(({ role }) => role === 'solvent');
  return naming.counted.flatMap(({ name }) => {
    const solvent = solvents.find((one) => isNamed(one, name));
    if (solvent === undefined) return [];
    return {
      code: 'peak-of-solvent-counted',
      severity: 'warning',
      message: `The peak of ${solvent.substance.name} is counted as part of the sample.`,
      hint: 'If the sample was dissolved in it, call the peak the solvent: then it is left out.',
    };
  });
}

function remarksOn(run: Run): Diagnostic[] {
  return [...solventsCounted(run), ...unknownProduct(run)];
}

function unknownProduct({ subjects, productPeaks, product }: Run): Diagnostic[] {
  if (subjects.product === undefined || productPeaks.length > 0) return [];
  return [
    {
      code: 'product-peak-unknown',
      severity: 'warning',
      message: `No peak is named as ${product}.`,
      hint: 'Name its peak, or give the retention time of an authentic sample.',
    },
  ];
}
