import type { ContaminantJudgement } from './contaminants.ts';
import type { TraceContext } from './context.ts';
import type { BandEvidence } from './group-judgement.ts';
import type { NamedFacts } from './judge.ts';
import { maximaWithin } from './maxima.ts';

/** A band of anything organic, beside the tallest, which then is the O–H of water. */
const LEAST_SHARE = 0.04;

/**
 * The bands of water where the trace shows it and nothing else: no C–H, nothing from 800 to 1550,
 * where every organic compound has bands. Undefined where there is more, or where the product is
 * water.
 */
export function nothingButWater(
  { maxima, view }: TraceContext,
  product: NamedFacts | undefined,
  contaminants: readonly ContaminantJudgement[],
): readonly BandEvidence[] | undefined {
  const water = contaminants.find(({ id, verdict }) => id === 'water' && verdict === 'present');
  if (water === undefined || product?.facts?.smiles === 'O') return undefined;
  const tallest = Math.max(view.tallest, ...water.evidence.map(({ height }) => height));
  const stands = [...maximaWithin(maxima, 800, 1550), ...maximaWithin(maxima, 2700, 3000)].some(
    ({ prominence }) => prominence > LEAST_SHARE * tallest,
  );
  return stands ? undefined : water.evidence;
}
