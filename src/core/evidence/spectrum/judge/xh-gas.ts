import type { TraceContext } from './context.ts';
import { canHold } from './context.ts';
import type { Maximum } from './maxima.ts';
import { leastShare, maximaWithin, mostProminent } from './maxima.ts';
import { uAt } from './view.ts';
import type { Explanation } from './weigh.ts';
import { about, missChance, near, weighed } from './weigh.ts';

/** What can absorb between 3100 and 3760 cm⁻¹ in a vapour. */
export type GasCause =
  | 'nothing'
  | 'hydroxyl'
  | 'bondedHydroxyl'
  | 'ketoneHydroxyl'
  | 'chelate'
  | 'acid'
  | 'amineNh'
  | 'arylNh'
  | 'amideNh'
  | 'azoleNh'
  | 'alkyne';

interface GasModel {
  readonly prior: number;
  readonly needs: readonly string[];
  readonly place: number;
  readonly placeSd: number;
  readonly width: number;
  readonly share: number;
  readonly shareFactor: number;
  /** Chance of a C=O beside it. */
  readonly carbonyl: number;
  readonly unseen: number;
}

/**
 * Alone in the vapour an O–H is narrow and weak. Alcohols 3640–3682, phenols 3640–3657, bonded
 * inside the molecule 3560–3625, to the C=O beside it 3470–3570, acids 3570–3590, chelated to a C=O
 * 3050–3350.
 */
const MODELS: Readonly<Record<GasCause, GasModel>> = {
  nothing: {
    prior: 0.61,
    needs: [],
    place: 3450,
    placeSd: 250,
    width: 30,
    share: 0.012,
    shareFactor: 1.9,
    carbonyl: 0.42,
    unseen: 0.75,
  },
  hydroxyl: {
    prior: 0.2,
    needs: ['O'],
    place: 3656,
    placeSd: 14,
    width: 32,
    share: 0.15,
    shareFactor: 2,
    carbonyl: 0.15,
    unseen: 0.012,
  },
  bondedHydroxyl: {
    prior: 0.035,
    needs: ['O'],
    place: 3598,
    placeSd: 24,
    width: 40,
    share: 0.15,
    shareFactor: 2,
    carbonyl: 0.25,
    unseen: 0.03,
  },
  ketoneHydroxyl: {
    prior: 0.008,
    needs: ['O'],
    place: 3525,
    placeSd: 32,
    width: 50,
    share: 0.1,
    shareFactor: 1.9,
    carbonyl: 0.97,
    unseen: 0.1,
  },
  chelate: {
    prior: 0.01,
    needs: ['O'],
    place: 3210,
    placeSd: 90,
    width: 130,
    share: 0.12,
    shareFactor: 2,
    carbonyl: 0.8,
    unseen: 0.4,
  },
  acid: {
    prior: 0.04,
    needs: ['O'],
    place: 3579,
    placeSd: 8,
    width: 30,
    share: 0.25,
    shareFactor: 1.8,
    carbonyl: 0.99,
    unseen: 0.02,
  },
  amineNh: {
    prior: 0.06,
    needs: ['N'],
    place: 3370,
    placeSd: 45,
    width: 45,
    share: 0.02,
    shareFactor: 2.2,
    carbonyl: 0.1,
    unseen: 0.5,
  },
  arylNh: {
    prior: 0.05,
    needs: ['N'],
    place: 3440,
    placeSd: 45,
    width: 35,
    share: 0.12,
    shareFactor: 2.2,
    carbonyl: 0.25,
    unseen: 0.08,
  },
  amideNh: {
    prior: 0.03,
    needs: ['N'],
    place: 3455,
    placeSd: 50,
    width: 35,
    share: 0.12,
    shareFactor: 2,
    carbonyl: 0.97,
    unseen: 0.04,
  },
  azoleNh: {
    prior: 0.01,
    needs: ['N'],
    place: 3518,
    placeSd: 13,
    width: 32,
    share: 0.35,
    shareFactor: 1.9,
    carbonyl: 0.1,
    unseen: 0.03,
  },
  alkyne: {
    prior: 0.01,
    needs: [],
    place: 3329,
    placeSd: 9,
    width: 30,
    share: 0.5,
    shareFactor: 1.8,
    carbonyl: 0.2,
    unseen: 0.02,
  },
};

const RANGE_PERCM = 640;

export interface GasReading {
  readonly causes: ReadonlyMap<GasCause, number>;
  readonly band?: Maximum;
}

/**
 * Each maximum is weighed; the strongest claim for an O–H stands. Lines of water vapour crowd
 * 3600 to 3900, so a maximum with rivals as tall on both sides within 60 cm⁻¹ is no O–H.
 */
export function readGas(context: TraceContext, carbonyl: number): GasReading {
  const { maxima, view } = context;
  const seen = maximaWithin(maxima, 3150, 3735).filter(
    ({ prominence }) => prominence > 0.01 * view.tallest,
  );
  const forest = isForest(context);
  const own = seen.filter(({ position_percm: p }) => !(forest && p > 3660 && p < 3735));
  const main = mostProminent(own.filter(({ position_percm: p }) => p > 3540)) ?? mostProminent(own);
  return { causes: causesOf(context, main, carbonyl), ...(main && { band: main }) };
}

/** Lines of water vapour: four or more narrow maxima between 3680 and 3920. */
function isForest({ maxima, view }: TraceContext): boolean {
  const lines = maximaWithin(maxima, 3690, 3920).filter(
    ({ width_percm, prominence }) => width_percm < 25 && prominence > 4 * view.noise,
  );
  return lines.length >= 4;
}

function causesOf(
  context: TraceContext,
  main: Maximum | undefined,
  carbonyl: number,
): Map<GasCause, number> {
  const spread = uAt(context.view, main?.position_percm ?? 3500);
  const least = Math.max(0.01, leastShare(context.view));
  const explanations = (Object.keys(MODELS) as GasCause[])
    .filter((name) => MODELS[name].needs.every((symbol) => canHold(context, symbol)))
    .map((name): Explanation<GasCause> => {
      const one = name === 'nothing' ? noiseAt(MODELS.nothing, least) : MODELS[name];
      const unseen = missChance(one.unseen, one.share, one.shareFactor, least);
      const partner = Math.log(carbonyl * one.carbonyl + (1 - carbonyl) * (1 - one.carbonyl));
      const seen =
        main === undefined
          ? Math.log(unseen)
          : Math.log(1 - unseen) +
            near(main.position_percm, one.place, Math.hypot(one.placeSd, spread), RANGE_PERCM) +
            about(main.height / context.view.tallest, one.share, one.shareFactor) +
            about(main.width_percm, one.width, 1.8);
      return { name, prior: one.prior, logLikelihood: partner + seen };
    });
  return weighed(explanations);
}

/** Without any X–H bond the tallest maximum is a whim of the noise, if the record is noisy. */
function noiseAt(nothing: GasModel, least: number): GasModel {
  return { ...nothing, share: Math.max(nothing.share, 1.3 * least) };
}
