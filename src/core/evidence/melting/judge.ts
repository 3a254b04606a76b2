import type { Diagnostic } from '../../diagnostic.ts';
import type { Judged, Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { degrees, fixed, implausible, nothingExpected } from './compare.ts';
import { standingAgainst } from './literature.ts';
import { judgeMixed } from './mixed.ts';
import { judgeProduct } from './product.ts';
import type { CorrectedRange } from './range.ts';
import { correctedRange } from './range.ts';
import type { MeltingEntered } from './schema.ts';
import { isFast, thermometerDiagnostics } from './thermometer.ts';

/** What an apparatus with capillaries can reach: common practice. */
const LEAST_C = -120;
const MOST_C = 450;
const WIDEST_C = 60;

/** Why the numbers cannot be a melting range, or nothing. */
function refused({ low_C, high_C }: MeltingEntered): Diagnostic | undefined {
  const wrong = [low_C, high_C].find((t) => !(t >= LEAST_C && t <= MOST_C));
  if (wrong !== undefined)
    return implausible(
      'melting-implausible',
      `A melting range of an organic compound does not reach ${fixed(wrong, 1)} °C.`,
      `Look for a missing decimal point, or for kelvin or °F. Here ${LEAST_C} to ${MOST_C} °C can be.`,
    );
  if (Math.abs(high_C - low_C) > WIDEST_C)
    return implausible(
      'melting-implausible',
      `${degrees(low_C)} to ${degrees(high_C)} is too wide for a melting range.`,
      'Enter where the first liquid was seen, and where the last crystal went.',
    );
  return undefined;
}

function remarks(entered: MeltingEntered): Diagnostic[] {
  const found: Diagnostic[] = [];
  if (entered.low_C > entered.high_C)
    found.push({
      code: 'range-reversed',
      severity: 'warning',
      message: `The range begins at ${degrees(entered.low_C)} and ends lower, at ${degrees(entered.high_C)}.`,
      hint: 'It is read the other way round. Enter the lower temperature first.',
    });
  const rate = entered.heatingRate_C_min ?? 0;
  if (isFast(entered))
    found.push({
      code: 'heated-too-fast',
      severity: 'warning',
      message: `At ${fixed(rate, 1)} °C/min the thermometer and the sample differ.`,
      hint: 'Heat by 1 to 2 °C/min from 15 °C below the melting point (common practice).',
    });
  return found;
}

/** A known sample of the product measured in the same way: it checks the thermometer. */
function judgeAuthentic(range: CorrectedRange, product: Subject | undefined): Statement {
  const base = {
    id: 'melting-authentic',
    technique: 'meltingRange',
    about: 'instrument',
    what: 'Melting range of a known sample',
    measured: range.text,
    derivation: range.steps,
  } as const;
  const standing = product && standingAgainst(range.high, product);
  if (product === undefined || standing === undefined)
    return nothingExpected(base, product?.substance.name, 'melting range');
  const agreement = standing.place === 'within' ? 'agrees' : 'disagrees';
  return {
    ...base,
    substance: product.substance.name,
    expected: standing.expected,
    agreement,
    weight: 'moderate',
    derivation: [...range.steps, standing.step],
    says:
      agreement === 'agrees'
        ? `The known sample of ${product.substance.name} melts where it should, so the thermometer can be trusted here.`
        : `The known sample of ${product.substance.name} melts ${degrees(Math.abs(standing.distance_C))} ${standing.place} the literature: the thermometer, or the known sample, is off.`,
    limits: 'It tells of the apparatus near this temperature, not of the product.',
  };
}

const JUDGES: Record<
  MeltingEntered['sample'],
  (range: CorrectedRange, entered: MeltingEntered, subjects: Subjects) => readonly Statement[]
> = {
  product: judgeProduct,
  mixed: judgeMixed,
  authentic: (range, _, { product }) => [judgeAuthentic(range, product)],
};

/**
 * A melting range judged: against the literature, its breadth, its depression (with a rough mole
 * share of impurity where the enthalpy of fusion is known), or mixed with a known substance.
 */
export function judgeMelting(entered: MeltingEntered, subjects: Subjects): Judged {
  const refusal = refused(entered);
  if (refusal !== undefined) return { statements: [], diagnostics: [refusal] };
  const range = correctedRange(entered.low_C, entered.high_C, entered.thermometer);
  const high_C = Math.max(entered.low_C, entered.high_C);
  return {
    statements: JUDGES[entered.sample](range, entered, subjects),
    diagnostics: [...remarks(entered), ...thermometerDiagnostics(entered.thermometer, high_C)],
  };
}
