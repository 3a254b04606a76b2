import type { Diagnostic } from '../../diagnostic.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import {
  add,
  exact,
  fromHalfWidth,
  measured,
  multiply,
  scale,
  standardUncertainty,
  subtract,
} from '../../quantity/uncertain.ts';
import type { Judged, Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import {
  COVERAGE,
  agreementOf,
  fixed,
  implausible,
  nothingExpected,
  othersThatFit,
  plusMinus,
  sentences,
  sourceOf,
  withSource,
} from '../melting/compare.ts';
import type { DensityEntered, Pycnometer } from './schema.ts';
import { USUAL_EXPANSION, USUAL_EXPANSION_U, WATER_RANGE_C } from './water.ts';
import type { Measured } from './measure.ts';
import { READING_C, measuredOf } from './measure.ts';

/** Of organic liquids: pentane lies at 0.63, diiodomethane at 3.3 (handbooks). */
const LEAST = 0.5;
const MOST = 3.5;
const COLDEST_C = -20;
const HOTTEST_C = 150;
/** Half-width of how far published values lie apart, g/mL: common practice. */
const LITERATURE = 0.001;
const GIVEN_RELATIVE_U = 0.05;
/** Glass that holds a liquid weighs more, g. */
const LEAST_GLASS_G = 0.1;
/** A pycnometer that holds less than this is known badly, g. */
const LEAST_WATER_G = 0.5;

interface Expected {
  readonly density_g_mL: number;
  readonly T_C: number;
  readonly source: string | undefined;
}

const CODE = 'density-implausible';

function refusedWeighings(by: Pycnometer, waterT_C: number): Diagnostic | undefined {
  if (!(by.empty_g >= LEAST_GLASS_G))
    return implausible(CODE, 'An empty pycnometer has a mass.', 'Weigh it dry, with its stopper.');
  if (!(by.withWater_g > by.empty_g && by.withSample_g > by.empty_g))
    return implausible(
      CODE,
      'The full pycnometer weighs no more than the empty one.',
      'Look which of the three weighings is which.',
    );
  if (!(waterT_C >= WATER_RANGE_C[0] && waterT_C <= WATER_RANGE_C[1]))
    return implausible(
      CODE,
      `The density of water is not known here at ${fixed(waterT_C, 1)} °C.`,
      'Fill the pycnometer with water between 0 and 40 °C.',
    );
  return undefined;
}

function refused({ T_C, by }: DensityEntered): Diagnostic | undefined {
  if (!(T_C >= COLDEST_C && T_C <= HOTTEST_C))
    return implausible(
      CODE,
      `A density is not measured at ${fixed(T_C, 1)} °C.`,
      'Enter the temperature of the sample in °C.',
    );
  return by.kind === 'pycnometer' ? refusedWeighings(by, by.waterT_C ?? T_C) : undefined;
}

function refusedResult(density_g_mL: number): Diagnostic | undefined {
  if (density_g_mL >= LEAST && density_g_mL <= MOST) return undefined;
  return implausible(
    CODE,
    `${fixed(density_g_mL, 3)} g/mL cannot be the density of an organic liquid.`,
    `Here ${LEAST} to ${MOST} g/mL can be. Look at the unit (1 g/mL = 1000 kg/m³), and which weighing is which.`,
  );
}

export function expectedDensity({ literature, substance }: Subject): Expected | undefined {
  if (literature.density_g_mL !== undefined)
    return {
      density_g_mL: literature.density_g_mL,
      T_C: literature.densityT_C ?? 20,
      source: sourceOf(literature, 'density_g_mL'),
    };
  // The table's figure for a solid is that of its crystals.
  if (substance.density_g_mL === undefined || substance.state === 'solid') return undefined;
  return {
    density_g_mL: substance.density_g_mL,
    T_C: substance.densityT_C ?? 20,
    source: substance.sources.density,
  };
}

/** The fall in g/mL per °C: as entered, else by the usual expansion of a liquid of this density. */
function fallOf(density: Uncertain, given: number | undefined): Uncertain {
  return given === undefined
    ? scale(measured('expansion', USUAL_EXPANSION, USUAL_EXPANSION_U), density.value)
    : measured('dρ/dT', given, GIVEN_RELATIVE_U * given);
}

function at(density: Uncertain, entered: DensityEntered, T_C: number): Uncertain {
  const read = measured('temperature', entered.T_C, fromHalfWidth(READING_C, 'rectangular'));
  const fall = fallOf(density, entered.fall_g_mL_perC);
  // ρ + k·(T − T′), as densityAt has it
  return add(density, multiply(fall, subtract(read, exact(T_C))));
}

const uWithLiterature = (density: Uncertain): number =>
  Math.hypot(standardUncertainty(density), fromHalfWidth(LITERATURE, 'rectangular'));

function identity(
  entered: DensityEntered,
  { density, steps }: Measured,
  product: Subject,
  expected: Expected,
  others: readonly Subject[],
): Statement {
  const there = at(density, entered, expected.T_C);
  const u = uWithLiterature(there);
  const difference = there.value - expected.density_g_mL;
  const agreement = agreementOf(difference, u);
  const { name, state } = product.substance;
  const fits = othersThatFit(others, (other) => {
    const theirs = expectedDensity(other);
    if (theirs === undefined || other.substance.state === 'solid') return false;
    const value = at(density, entered, theirs.T_C);
    return agreementOf(value.value - theirs.density_g_mL, uWithLiterature(value)) === 'agrees';
  });
  return {
    id: 'density',
    technique: 'density',
    about: 'identity',
    substance: name,
    what: 'Density',
    measured: `${plusMinus(there.value, standardUncertainty(there))} g/mL at ${fixed(expected.T_C, 0)} °C`,
    expected: withSource(
      `${fixed(expected.density_g_mL, 4)} g/mL at ${fixed(expected.T_C, 0)} °C`,
      expected.source,
    ),
    agreement,
    weight: 'weak',
    says:
      agreement === 'agrees'
        ? `The density is that of ${name}.`
        : `The density is ${fixed(Math.abs(difference), 4)} g/mL ${difference > 0 ? 'above' : 'below'} that of ${name}: another liquid, something dissolved in it, or an air bubble.`,
    limits: sentences(
      'Many liquids share a density, and small impurities hardly change it.',
      fits !== '' && `So does ${fits}.`,
      state === 'solid' &&
        `${name} is a solid at 20 °C; a density of its melt or solution is not compared.`,
    ),
    derivation: [
      ...steps,
      {
        label: `From ${fixed(entered.T_C, 1)} °C to ${fixed(expected.T_C, 1)} °C`,
        formula: `ρ + ${fixed(fallOf(density, entered.fall_g_mL_perC).value, 5)}·(T − T′)`,
        value: `${plusMinus(there.value, standardUncertainty(there))} g/mL`,
        source:
          entered.fall_g_mL_perC === undefined
            ? 'usual expansion of organic liquids, 0.0011 ± 0.00025 per °C: common practice'
            : 'as entered',
      },
      {
        label: 'Against the literature',
        formula: '|difference| ≤ 2·√(u² + u_literature²), u_literature = 0.001 g/mL/√3',
        value: `${fixed(difference, 4)} g/mL, allowed ±${fixed(COVERAGE * u, 4)}`,
        source: 'GUM 5.1.2; spread of published values: common practice',
      },
    ],
  };
}

/** A density judged: from weighings or as shown, brought to the temperature of the literature. */
export function judgeDensity(entered: DensityEntered, subjects: Subjects): Judged {
  const refusal = refused(entered);
  if (refusal !== undefined) return { statements: [], diagnostics: [refusal] };
  const found = measuredOf(entered);
  const wrong = refusedResult(found.density.value);
  if (wrong !== undefined) return { statements: [], diagnostics: [wrong] };
  const { by } = entered;
  const diagnostics: Diagnostic[] = [];
  if (by.kind === 'pycnometer' && by.withWater_g - by.empty_g < LEAST_WATER_G)
    diagnostics.push({
      code: 'pycnometer-small',
      severity: 'note',
      message: `The pycnometer holds only ${fixed(by.withWater_g - by.empty_g, 2)} g of water.`,
      hint: 'A drop more or less matters much. Fill it three times and take the mean.',
    });
  const { product, others } = subjects;
  const expected = product && expectedDensity(product);
  if (product === undefined || expected === undefined) {
    const base = {
      id: 'density',
      technique: 'density',
      about: 'identity',
      what: 'Density',
      measured: `${plusMinus(found.density.value, standardUncertainty(found.density))} g/mL at ${fixed(entered.T_C, 1)} °C`,
      derivation: found.steps,
    } as const;
    return {
      statements: [nothingExpected(base, product?.substance.name, 'density')],
      diagnostics,
    };
  }
  return { statements: [identity(entered, found, product, expected, others)], diagnostics };
}
