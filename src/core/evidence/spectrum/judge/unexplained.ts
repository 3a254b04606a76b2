import { bandsFor } from './bands.ts';
import type { BandJudgement } from './expected.ts';
import type { ContaminantJudgement } from './contaminants.ts';
import type { TraceContext } from './context.ts';
import { evidenceOf } from './evidence.ts';
import type { BandEvidence } from './group-judgement.ts';
import type { NamedFacts } from './judge.ts';
import type { ResidualEstimate } from './residual.ts';

/** Below this the skeleton of every molecule gives bands that no table names. */
const FINGERPRINT_PERCM = 1500;
const LEAST_SHARE = 0.05;

const OIL = [
  [2830, 2990],
  [1440, 1480],
  [1365, 1390],
] as const;

/** A band that is not of the product and may be of something that went in. */
export interface BandOfOthers {
  readonly band: BandEvidence;
  /** By name. */
  readonly of: readonly string[];
}

export interface NotOfProduct {
  readonly unexplained: readonly BandEvidence[];
  readonly ofOthers: readonly BandOfOthers[];
}

/** Splits bands that the product does not explain by whether what went in has a window there. */
export function notOfProduct(
  context: TraceContext,
  bands: readonly BandEvidence[],
  wentIn: readonly NamedFacts[],
): NotOfProduct {
  const slack = 2 * context.view.positionU_percm;
  const split = bands.map((band) => ({
    band,
    of: wentIn.flatMap(({ name, facts }) =>
      facts !== undefined &&
      bandsFor(facts, context.state).some(
        ({ band: { low_percm, high_percm } }) =>
          band.position_percm > low_percm - slack && band.position_percm < high_percm + slack,
      )
        ? [name]
        : [],
    ),
  }));
  return {
    unexplained: split.filter(({ of }) => of.length === 0).map(({ band }) => band),
    ofOthers: split.filter(({ of }) => of.length > 0),
  };
}

/**
 * Bands above 1500 cm⁻¹, of at least a twentieth of the tallest, that neither the structure nor a
 * contaminant, a rest of starting material, the air, an overtone of a C=O nor the oil of a mull
 * accounts for.
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
    // Bend and libration of water together.
    ...(contaminants.some(({ id, verdict }) => id === 'water' && verdict === 'present')
      ? [[2050, 2250] as const]
      : []),
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
