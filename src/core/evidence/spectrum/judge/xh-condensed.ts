import type { TraceContext } from './context.ts';
import { canHold, isSolid } from './context.ts';
import { besideClipped, uAt } from './view.ts';
import type { Explanation } from './weigh.ts';
import type { Maximum } from './maxima.ts';
import { leastShare } from './maxima.ts';
import { about, missChance, near, weighed, whether } from './weigh.ts';
import type { Level, Pairing, XhFeatures } from './xh-features.ts';

/** What can absorb between 3070 and 3570 cm⁻¹ in a liquid, a solution or a solid. */
export type XhCause =
  | 'nothing'
  | 'alcohol'
  | 'phenol'
  | 'crystalHydroxyl'
  | 'hiddenHydroxyl'
  | 'hydroxylAndNh'
  | 'hydroxylAndAcid'
  | 'acid'
  | 'alkylNh2'
  | 'arylNh2'
  | 'alkylNh'
  | 'arylNh'
  | 'pyrroleNh'
  | 'imideNh'
  | 'conjugatedNh'
  | 'amideNh'
  | 'amideNh2'
  | 'azole'
  | 'ammonium'
  | 'water'
  | 'muchWater'
  | 'overtone'
  | 'acidAndNh'
  | 'alkyne';

type Thirds = readonly [low: number, middle: number, high: number];

/** How a cause looks. Medians and factors of log-normals; chances of the yes-or-no features. */
interface Model {
  readonly prior: number;
  readonly needs: readonly string[];
  /** Chance that it shows no maximum in the window at all. */
  readonly unseen: number;
  readonly place: number;
  readonly placeSd: number;
  readonly width: number;
  readonly widthFactor: number;
  readonly share: number;
  readonly shareFactor: number;
  /** Single, close pair, wide pair. */
  readonly pairing: Thirds;
  readonly carbonOxygen?: Thirds;
  readonly bend?: Thirds;
  readonly amidePair?: number;
  readonly carbonyl?: number;
  readonly lowCarbonyl?: number;
  readonly shelf?: number;
  readonly shelfFactor?: number;
  readonly overtone?: number;
  readonly alkynePartner?: number;
}

const USUAL = {
  carbonOxygen: [0.22, 0.36, 0.42] as Thirds,
  bend: [0.5, 0.29, 0.21] as Thirds,
  amidePair: 0.1,
  carbonyl: 0.42,
  lowCarbonyl: 0.2,
  shelf: 0.02,
  shelfFactor: 1.9,
  overtone: 0.015,
  alkynePartner: 0.35,
};

const RANGE_PERCM = 500;

/** Positions, widths and heights of pure liquids; the methods page has the reasons and sources. */
const MODELS: Readonly<Record<XhCause, Model>> = {
  nothing: model([], 0.42, 0.7, [3330, 150], [45, 2.5], [0.014, 2], [0.6, 0.25, 0.15], {}),
  alcohol: model(['O'], 0.17, 0.006, [3345, 50], [230, 1.35], [0.5, 1.9], [0.93, 0.05, 0.02], {
    carbonOxygen: [0.03, 0.22, 0.75],
    carbonyl: 0.25,
    amidePair: 0.06,
    lowCarbonyl: 0.16,
  }),
  phenol: model(['O'], 0.06, 0.01, [3350, 85], [230, 1.5], [0.5, 1.9], [0.9, 0.07, 0.03], {
    carbonOxygen: [0.04, 0.24, 0.72],
    bend: [0.1, 0.4, 0.5],
    carbonyl: 0.3,
    lowCarbonyl: 0.28,
  }),
  crystalHydroxyl: model(['O'], 0.002, 0.01, [3510, 50], [45, 1.7], [0.4, 2], [0.8, 0.14, 0.06], {
    carbonOxygen: [0.05, 0.3, 0.65],
  }),
  hiddenHydroxyl: model(['O'], 0.016, 0.45, [3170, 110], [190, 1.9], [0.11, 2.3], [0.7, 0.2, 0.1], {
    carbonOxygen: [0.06, 0.34, 0.6],
    carbonyl: 0.7,
    lowCarbonyl: 0.65,
  }),
  hydroxylAndNh: model(['O', 'N'], 0.04, 0.01, [3330, 70], [120, 2], [0.5, 2], [0.45, 0.37, 0.18], {
    carbonOxygen: [0.05, 0.3, 0.65],
    bend: [0.25, 0.4, 0.35],
    amidePair: 0.25,
    shelf: 0.035,
    lowCarbonyl: 0.35,
  }),
  hydroxylAndAcid: model(['O'], 0.012, 0.03, [3370, 85], [130, 1.8], [0.45, 1.8], [0.7, 0.2, 0.1], {
    carbonyl: 0.96,
    shelf: 0.12,
    carbonOxygen: [0.05, 0.3, 0.65],
    lowCarbonyl: 0.22,
  }),
  acid: model(['O'], 0.07, 0.5, [3105, 75], [110, 2.5], [0.3, 2], [0.75, 0.17, 0.08], {
    carbonyl: 0.97,
    shelf: 0.13,
    shelfFactor: 2.2,
    lowCarbonyl: 0.22,
  }),
  acidAndNh: model(['O', 'N'], 0.008, 0.05, [3340, 80], [60, 1.7], [0.5, 1.7], [0.7, 0.2, 0.1], {
    carbonyl: 0.97,
    shelf: 0.15,
    lowCarbonyl: 0.3,
  }),
  alkylNh2: model(['N'], 0.03, 0.04, [3325, 50], [85, 1.7], [0.16, 2], [0.2, 0.77, 0.03], {
    bend: [0.15, 0.55, 0.3],
    carbonyl: 0.12,
    shelf: 0.025,
    lowCarbonyl: 0.08,
  }),
  arylNh2: model(['N'], 0.055, 0.01, [3380, 50], [95, 1.8], [0.35, 1.9], [0.06, 0.8, 0.14], {
    bend: [0.02, 0.16, 0.82],
    carbonyl: 0.35,
    lowCarbonyl: 0.3,
  }),
  alkylNh: model(['N'], 0.03, 0.2, [3297, 32], [60, 1.5], [0.03, 2.2], [0.87, 0.1, 0.03], {
    carbonyl: 0.12,
    bend: [0.7, 0.2, 0.1],
  }),
  arylNh: model(['N'], 0.025, 0.03, [3395, 35], [45, 1.6], [0.25, 2], [0.8, 0.17, 0.03], {
    bend: [0.05, 0.2, 0.75],
    carbonyl: 0.3,
  }),
  pyrroleNh: model(['N'], 0.015, 0.03, [3400, 32], [70, 1.5], [0.55, 1.7], [0.85, 0.12, 0.03], {
    carbonyl: 0.25,
  }),
  imideNh: model(['N', 'O'], 0.015, 0.05, [3200, 50], [105, 1.5], [0.45, 1.7], [0.5, 0.42, 0.08], {
    carbonyl: 0.99,
    lowCarbonyl: 0.15,
  }),
  conjugatedNh: model(['N'], 0.03, 0.02, [3350, 80], [105, 1.9], [0.6, 1.7], [0.3, 0.45, 0.25], {
    carbonyl: 0.55,
    amidePair: 0.4,
    bend: [0.06, 0.2, 0.74],
    shelf: 0.04,
    lowCarbonyl: 0.4,
  }),
  amideNh: model(['N'], 0.05, 0.02, [3292, 45], [95, 1.5], [0.35, 1.9], [0.78, 0.13, 0.09], {
    amidePair: 0.82,
    carbonyl: 0.95,
    lowCarbonyl: 0.65,
  }),
  amideNh2: model(['N'], 0.02, 0.01, [3350, 70], [100, 1.5], [0.45, 1.8], [0.1, 0.17, 0.73], {
    amidePair: 0.3,
    carbonyl: 0.95,
    bend: [0.1, 0.3, 0.6],
    lowCarbonyl: 0.65,
  }),
  azole: model(['N'], 0.015, 0.35, [3180, 110], [95, 2], [0.35, 2.1], [0.7, 0.2, 0.1], {
    shelf: 0.1,
    carbonyl: 0.2,
  }),
  ammonium: model(['N'], 0.02, 0.4, [3150, 110], [120, 2.3], [0.4, 1.9], [0.5, 0.3, 0.2], {
    shelf: 0.3,
    bend: [0.1, 0.4, 0.5],
  }),
  water: model([], 0.05, 0.15, [3430, 45], [290, 1.4], [0.035, 2.3], [0.93, 0.05, 0.02], {}),
  muchWater: model([], 0.012, 0.01, [3395, 40], [370, 1.25], [1, 2.5], [0.96, 0.03, 0.01], {
    carbonOxygen: [0.5, 0.28, 0.22],
    bend: [0.1, 0.4, 0.5],
  }),
  overtone: model(['O'], 0.12, 0.1, [3430, 60], [40, 1.6], [0.03, 1.7], [0.8, 0.15, 0.05], {
    carbonyl: 0.99,
    overtone: 0.85,
  }),
  alkyne: model([], 0.01, 0.02, [3298, 16], [50, 1.5], [0.4, 1.9], [0.9, 0.08, 0.02], {
    alkynePartner: 0.95,
    carbonyl: 0.2,
  }),
};

/** Crystals sharpen and shift O–H and N–H; in a liquid the pair of an NH2 runs together. */
const SOLID: Partial<Record<XhCause, Partial<Model>>> = {
  alcohol: {
    place: 3330,
    placeSd: 75,
    width: 165,
    widthFactor: 1.65,
    unseen: 0.02,
    pairing: [0.8, 0.13, 0.07],
  },
  phenol: {
    place: 3320,
    placeSd: 100,
    width: 170,
    widthFactor: 1.7,
    unseen: 0.03,
    pairing: [0.8, 0.13, 0.07],
  },
  crystalHydroxyl: { prior: 0.02 },
  arylNh2: { width: 50, widthFactor: 1.7 },
  hiddenHydroxyl: { prior: 0.03 },
};

const WATER_IN: Readonly<Record<string, Partial<Model>>> = {
  disc: {
    prior: 0.3,
    place: 3437,
    placeSd: 38,
    width: 260,
    widthFactor: 1.45,
    share: 0.12,
    shareFactor: 1.95,
  },
  mull: { prior: 0.1, place: 3410, placeSd: 60, share: 0.06, shareFactor: 2.2 },
  solution: { prior: 0.04 },
};

function model(
  needs: readonly string[],
  prior: number,
  unseen: number,
  [place, placeSd]: readonly [number, number],
  [width, widthFactor]: readonly [number, number],
  [share, shareFactor]: readonly [number, number],
  pairing: Thirds,
  rest: Pick<Partial<Model>, keyof typeof USUAL>,
): Model {
  return {
    needs,
    prior,
    unseen,
    place,
    placeSd,
    width,
    widthFactor,
    share,
    shareFactor,
    pairing,
    ...rest,
  };
}

function modelFor(cause: XhCause, context: TraceContext): Model {
  const { state } = context;
  const base = MODELS[cause];
  // Without any X–H bond the tallest maximum is a whim of the noise, if the record is noisy.
  if (cause === 'nothing')
    return { ...base, share: Math.max(base.share, 1.3 * leastShare(context.view)) };
  if (cause === 'water') return { ...base, ...WATER_IN[state] };
  return isSolid(state) ? { ...base, ...SOLID[cause] } : base;
}

/** A formula that is known to hold an element makes what needs it commoner than in any sample. */
const KNOWN_TO_HOLD: Readonly<Record<string, number>> = { N: 2.5, O: 1.2 };

function priorOf({ prior, needs }: Model, { elements }: TraceContext): number {
  if (elements === undefined) return prior;
  return needs.reduce((product, symbol) => product * (KNOWN_TO_HOLD[symbol] ?? 1), prior);
}

/** Shares of the causes of what the X–H region shows. */
export function xhCauses(context: TraceContext, features: XhFeatures): Map<XhCause, number> {
  const names = Object.keys(MODELS) as XhCause[];
  return weighed(
    names
      .map((name) => [name, modelFor(name, context)] as const)
      .filter(([, { needs }]) => needs.every((symbol) => canHold(context, symbol)))
      .map(([name, one]): Explanation<XhCause> => ({
        name,
        prior: priorOf(one, context),
        logLikelihood: likelihood(one, features, context),
      })),
  );
}

function likelihood(one: Model, features: XhFeatures, context: TraceContext): number {
  const { main } = features;
  const least = leastShare(context.view);
  const unseen = missChance(one.unseen, one.share, one.shareFactor, least);
  const water = modelFor('water', context);
  const wet = water.prior;
  const shared =
    about(
      0.012 + features.shelf,
      0.012 + (one.shelf ?? USUAL.shelf),
      one.shelfFactor ?? USUAL.shelfFactor,
    ) +
    third(features.carbonOxygen, one.carbonOxygen ?? USUAL.carbonOxygen) +
    third(features.bend, one.bend ?? USUAL.bend) +
    whether(features.amidePair, one.amidePair ?? USUAL.amidePair) +
    whether(features.lowCarbonyl, one.lowCarbonyl ?? USUAL.lowCarbonyl) +
    weight(features.carbonyl, one.carbonyl ?? USUAL.carbonyl);
  if (main === undefined) return Math.log(unseen * (1 - wet)) + shared;
  const own = (1 - unseen) * Math.exp(bandLikelihood(one, main, features, context));
  // What shows no band of its own can still lie under the band of moisture.
  const moist = unseen * wet * Math.exp(bandLikelihood(water, main, features, context));
  return shared + Math.log(own + (one.unseen >= 0.3 && one.unseen < 0.69 ? moist : 0));
}

function bandLikelihood(
  one: Model,
  main: Maximum,
  features: XhFeatures,
  { view }: TraceContext,
): number {
  const narrow = main.width_percm < 90 && Math.abs(main.position_percm - 3300) < 45;
  return (
    near(
      main.position_percm,
      one.place,
      Math.hypot(one.placeSd, uAt(view, main.position_percm)),
      RANGE_PERCM,
    ) +
    about(main.width_percm, one.width, one.widthFactor) +
    about(features.share, besideClipped(one.share, view), one.shareFactor) +
    paired(features.pairing, one.pairing) +
    whether(features.overtone, one.overtone ?? USUAL.overtone) +
    (narrow ? whether(features.alkynePartner, one.alkynePartner ?? USUAL.alkynePartner) : 0)
  );
}

/** A yes or no that is itself only probable. */
function weight(probability: number, chance: number): number {
  return Math.log(probability * chance + (1 - probability) * (1 - chance));
}

function third(level: Level, [low, middle, high]: Thirds): number {
  return Math.log({ low, middle, high }[level]);
}

function paired(pairing: Pairing, [single, close, wide]: Thirds): number {
  return Math.log({ single, close, wide }[pairing]);
}
