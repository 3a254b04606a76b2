import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { DerivationStep, PurityFigure, Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { COVERAGE, degrees, fixed, nothingExpected, othersThatFit, sentences } from './compare.ts';
import type { Fusion } from './fusion.ts';
import { behaviourOf, fusionOf, impurityOf, impurityShare, ZERO_C_K } from './fusion.ts';
import type { CorrectedRange } from './range.ts';
import type { Standing } from './literature.ts';
import { expectedRange, standingAgainst } from './literature.ts';
import type { MeltingEntered } from './schema.ts';
import { isFast } from './thermometer.ts';

/** A pure solid melts within 1 to 2 °C, and over 3 °C is broad: common practice. */
const SHARP_C = 2;
const BROAD_C = 3;
/** No eutectic is expected further below the melting point than this: common practice. */
const DEEPEST_C = 40;
/** Beyond this mole share the formula of a dilute melt means nothing. */
const MOST_IMPURE = 0.2;

type Breadth = 'sharp' | 'between' | 'broad';

interface Case {
  readonly range: CorrectedRange;
  readonly entered: MeltingEntered;
  readonly product: Subject;
  readonly standing: Standing;
  readonly breadth: Breadth;
  readonly breadth_C: number;
  readonly others: readonly Subject[];
}

type Outcome = Pick<Statement, 'agreement' | 'weight' | 'says'>;

/** What the place of the end says of identity, before decomposition is thought of. */
const IDENTITY: Record<Standing['place'], (seen: Case) => Outcome> = {
  within: ({ product, breadth }) => ({
    agreement: 'agrees',
    weight: breadth === 'broad' ? 'weak' : 'moderate',
    says:
      breadth === 'broad'
        ? `The sample ends melting where ${product.substance.name} does.`
        : `The sample melts where ${product.substance.name} does.`,
  }),
  above: ({ product, standing }) => ({
    agreement: 'disagrees',
    weight: 'moderate',
    says: `The sample melts ${degrees(standing.distance_C)} above ${product.substance.name}. An impurity would lower it: check the thermometer, then think of another substance or crystal form.`,
  }),
  below: ({ product, standing, breadth }) => {
    const depth_C = -standing.distance_C;
    if (breadth === 'sharp')
      return {
        agreement: 'disagrees',
        weight: depth_C > 5 ? 'moderate' : 'weak',
        says: `The sample melts sharply, but ${degrees(depth_C)} below ${product.substance.name}: another substance, another crystal form, a eutectic mixture, or a thermometer that reads low.`,
      };
    if (depth_C > DEEPEST_C)
      return {
        agreement: 'disagrees',
        weight: 'moderate',
        says: `The sample melts ${degrees(depth_C)} below ${product.substance.name}, further than an impurity usually brings it.`,
      };
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: `The sample melts ${degrees(depth_C)} below ${product.substance.name}. ${sentenceOfDepth(product)}`,
    };
  },
};

function sentenceOfDepth({ substance }: Subject): string {
  return `It may be wet or impure ${substance.name}, or another substance.`;
}

function fitsOf(seen: Case): string {
  return othersThatFit(
    seen.others,
    (other) => standingAgainst(seen.range.high, other)?.place === 'within',
  );
}

function circumstances({ entered, product }: Case): string {
  return sentences(
    isFast(entered) && 'It was heated too fast for the thermometer and the sample to agree.',
    entered.decomposes === true &&
      'It decomposed as it melted, so that the range depends on the heating rate.',
    entered.sublimes === true && 'It sublimed, which thins the sample; a sealed capillary helps.',
    behaviourOf(product.substance),
  );
}

function identity(seen: Case): Statement {
  const { range, product, standing, entered } = seen;
  const outcome = IDENTITY[standing.place](seen);
  const fits = fitsOf(seen);
  return {
    id: 'melting-range',
    technique: 'meltingRange',
    about: 'identity',
    substance: product.substance.name,
    what: 'Melting range',
    measured: range.text,
    expected: standing.expected,
    ...outcome,
    ...((entered.decomposes === true || isFast(entered)) && { weight: 'weak' }),
    limits: sentences(
      'Many solids melt at the same temperature.',
      fits !== '' && `So does ${fits}.`,
      'A mixed melting range with a known sample would say more.',
      circumstances(seen),
    ),
    derivation: [...range.steps, standing.step],
  };
}

interface Estimate {
  readonly figure?: PurityFigure;
  readonly says: string;
  readonly steps: readonly DerivationStep[];
}

const FORMULA = '−ln(1 − x) = (ΔH/R)·(1/T − 1/T₀)';

/** The impurity that such a depression would need; a bound, because not every impurity lowers. */
function estimate({ range, standing, product }: Case, fusion: Fusion): Estimate {
  const share = impurityOf(range.high, standing.pure, fusion);
  const u = standardUncertainty(share);
  const least = Math.max(0, share.value - COVERAGE * u);
  const steps: DerivationStep[] = [
    {
      label: 'Enthalpy of fusion',
      value: `${fixed(fusion.enthalpy_J_mol / 1000, 2)} kJ/mol`,
      source: fusion.source,
    },
    {
      label: 'Mole share of impurity, rough',
      formula: FORMULA,
      value: `${fixed(100 * share.value, 1)} ± ${fixed(100 * COVERAGE * u, 1)} mol %; ± is 2 u`,
      source: "van 't Hoff; ideal melt within 30 %: judgement",
    },
  ];
  if (share.value > MOST_IMPURE)
    return {
      steps: steps.slice(0, 1),
      says: 'The depression is too deep for a figure: more than about 20 mol % of something else.',
    };
  return {
    steps,
    figure: {
      basis: 'mole',
      kind: 'atMost',
      share: 1 - least,
      u: 0,
      of: product.substance.name,
    },
    says: `That would take roughly ${fixed(100 * share.value, 0)} mol % of impurity (give or take ${fixed(100 * COVERAGE * u, 0)}).`,
  };
}

/** The mole share that could hide in the uncertainty, as a sentence. */
function hidden({ standing }: Case, fusion: Fusion | undefined): string {
  if (fusion === undefined)
    return 'How much a given depression means is not known here, for want of an enthalpy of fusion.';
  const pure_K = standing.pure.value + ZERO_C_K;
  const share = impurityShare(pure_K - COVERAGE * standing.u_C, pure_K, fusion.enthalpy_J_mol);
  return `Up to about ${fixed(100 * share, 0)} mol % could hide in the uncertainty of the temperatures.`;
}

function purityOutcome(seen: Case, fusion: Fusion | undefined): Outcome & Partial<Estimate> {
  const { standing, breadth, breadth_C, entered } = seen;
  const wide = `The range is ${degrees(breadth_C)} wide; a pure solid melts within 1 to 2 °C.`;
  if (entered.decomposes === true)
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: 'A range that ends in decomposition says little of purity.',
    };
  if (standing.place === 'above')
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: 'The range lies above that of the pure substance, so that it says nothing of its purity.',
    };
  if (standing.place === 'within') {
    if (breadth === 'sharp')
      return {
        agreement: 'agrees',
        weight: 'moderate',
        says: 'The range is narrow and not lowered: no sign of an impurity that dissolves in the melt.',
      };
    return breadth === 'broad' && !isFast(entered)
      ? {
          agreement: 'disagrees',
          weight: 'moderate',
          says: `${wide} Something else is in it, or it was heated too fast.`,
        }
      : {
          agreement: 'cannotTell',
          weight: 'weak',
          says: isFast(entered)
            ? `${wide} It was heated too fast, which widens the range of a pure one.`
            : `${wide} It may hold a little of something else.`,
        };
  }
  const rough = fusion === undefined ? undefined : estimate(seen, fusion);
  if (breadth === 'sharp')
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: 'The range is lowered but narrow, which an ordinary impurity does not do; a eutectic mixture, another form or another substance would.',
    };
  return {
    agreement: 'disagrees',
    weight: 'moderate',
    ...rough,
    says: sentences('The range is lowered and wide, as by an impurity.', rough?.says),
  };
}

function purity(seen: Case): Statement {
  const { range, product, standing, breadth_C } = seen;
  const fusion = fusionOf(product.substance);
  const { figure, steps, ...outcome } = purityOutcome(seen, fusion);
  return {
    id: 'melting-purity',
    technique: 'meltingRange',
    about: 'purity',
    substance: product.substance.name,
    what: 'Breadth and depression of the melting range',
    measured: `${range.text}; ${degrees(breadth_C)} wide`,
    expected: `${standing.expected}; 1 to 2 °C wide (common practice)`,
    ...outcome,
    limits: sentences(
      `This holds if the sample is ${product.substance.name}.`,
      'An impurity that does not dissolve in the melt (a salt, a drying agent), or that enters the crystal, is not seen.',
      hidden(seen, fusion),
      'It is no share by mass and corrects no yield.',
      circumstances(seen),
    ),
    ...(figure !== undefined && { purity: figure }),
    derivation: [...range.steps, standing.step, ...(steps ?? [])],
  };
}

function breadthOf(breadth_C: number): Breadth {
  if (breadth_C <= SHARP_C + 1e-9) return 'sharp';
  return breadth_C > BROAD_C ? 'broad' : 'between';
}

/** The melting range of the product: identity, then purity. */
export function judgeProduct(
  range: CorrectedRange,
  entered: MeltingEntered,
  { product, others }: Subjects,
): readonly Statement[] {
  const standing = product && standingAgainst(range.high, product);
  if (product === undefined || standing === undefined) {
    const base = {
      id: 'melting-range',
      technique: 'meltingRange',
      about: 'identity',
      what: 'Melting range',
      measured: range.text,
      derivation: range.steps,
    } as const;
    return [nothingExpected(base, product?.substance.name, 'melting range')];
  }
  const breadth_C = range.high.value - range.low.value;
  const seen: Case = {
    range,
    entered,
    product,
    standing,
    breadth: breadthOf(breadth_C),
    breadth_C,
    others: others.filter((other) => expectedRange(other) !== undefined),
  };
  return [identity(seen), purity(seen)];
}
