import type { BandJudgement } from './expected.ts';
import type { ContaminantJudgement } from './contaminants.ts';
import type { TraceContext } from './context.ts';
import { evidenceOf } from './evidence.ts';
import type { BandEvidence } from './group-judgement.ts';
import type { ResidualEstimate } from './residual.ts';

/** Below this the skeleton of every molecule gives bands that no table names. */
const FINGERPRINT_PERCM = 1500;
const LEAST_SHARE = 0.05;

const OIL = [
  [2830, 2990],
  [1440, 1480],
  [1365, 1390],
] as const;

/**
 * Bands above 1500 cm⁻¹, of at least a twentieth of the tallest, that neither the structure nor a
 * contaminant, a rest of starting material, the air, an overtone
 * of a C=O nor the oil of a mull accounts for.
 */
export function unexplainedBands(
  context: TraceContext,
  expected: readonly BandJudgement[],
  contaminants: readonly ContaminantJudgement[],
  residual?: ResidualEstimate,
): readonly BandEvidence[] {
  const { view, maxima, state } = context;
  const slack = 10 + 2 * view.positionU_percm;
  const windows: (readonly [number, number])[] = [
    ...expected.map(({ window_percm }) => window_percm),
    ...contaminants
      .filter(({ verdict }) => verdict === 'present')
      .flatMap(({ evidence }) => evidence.map(({ position_percm: p }) => [p - 5, p + 5] as const)),
    ...(residual?.position_percm === undefined
      ? []
      : [[residual.position_percm, residual.position_percm] as const]),
    [2270, 2400],
    ...(state === 'mull' ? OIL : []),
  ];
  const carbonyls = expected
    .filter(({ what, evidence }) => what.startsWith('C=O') && evidence !== undefined)
    .map(({ evidence }) => evidence!.position_percm);
  return maxima
    .filter(
      ({ position_percm: p, prominence, height }) =>
        p > FINGERPRINT_PERCM &&
        p < 3720 &&
        prominence > LEAST_SHARE * view.tallest &&
        prominence > 0.2 * height &&
        !windows.some(([low, high]) => p > low - slack && p < high + slack) &&
        !carbonyls.some((one) => Math.abs(p - 2 * one + 22) < 40 && height < 0.1 * view.tallest),
    )
    .map((band) => evidenceOf(context, 'not explained', band));
}
