import type { PurityFigure } from '../../evidence/statement.ts';
import { measured, multiply } from '../../quantity/uncertain.ts';
import type { Percent } from '../yield/result.ts';
import { percentOf } from '../yield/result.ts';
import type { YieldPolicy } from '../yield/policy.ts';
import type { SourcedStatement } from './verdict.ts';

/** The purity that a yield may be corrected with, and the statement that it came from. */
export interface ChosenPurity {
  readonly figure: PurityFigure;
  readonly from: SourcedStatement;
}

export interface CorrectedYield {
  /** Of the mass as weighed. */
  readonly isolated: Percent;
  /** Of the product in it: isolated × mass share. */
  readonly corrected: Percent;
  /** `atMost`: the purity is a bound, so the corrected yield is one too. */
  readonly kind: PurityFigure['kind'];
  readonly purity: ChosenPurity;
}

const COVERAGE = 2;

const isName = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * Of all mass shares of the product that was measured, the one with the smallest uncertainty; where
 * none was measured, the lowest upper bound. Shares of area or of moles correct no yield.
 */
export function choosePurity(
  statements: readonly SourcedStatement[],
  product: string,
): ChosenPurity | undefined {
  const chosen = statements.flatMap((from): ChosenPurity[] => {
    const { purity } = from.statement;
    if (purity?.basis !== 'mass' || !isName(purity.of, product)) return [];
    // More than there can be, beyond its uncertainty: the measurement is wrong somewhere
    return purity.share - COVERAGE * purity.u > 1 ? [] : [{ figure: purity, from }];
  });
  const found = chosen.filter(({ figure }) => figure.kind === 'measured');
  const bounds = chosen.filter(({ figure }) => figure.kind === 'atMost' && figure.share < 1);
  const least = (list: readonly ChosenPurity[], of: (one: PurityFigure) => number) =>
    list.toSorted((a, b) => of(a.figure) - of(b.figure))[0];
  return least(found, ({ u }) => u) ?? least(bounds, ({ share }) => share);
}

/** Y·w, the two independent of each other: u²(Yw)/(Yw)² = u²(Y)/Y² + u²(w)/w² (GUM 5.1.6). */
export function correctedYield(
  isolated: Percent,
  purity: ChosenPurity,
  policy: YieldPolicy,
): CorrectedYield {
  const { figure } = purity;
  const share = measured('purity', Math.min(1, figure.share), figure.u);
  const fraction = measured('yield', isolated.percent / 100, isolated.u_percent / 100);
  const corrected = percentOf(multiply(fraction, share), policy);
  return { isolated, corrected, kind: figure.kind, purity };
}
