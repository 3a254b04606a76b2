import type { Diagnostic } from '../../diagnostic.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { divide, measured, scale, standardUncertainty } from '../../quantity/uncertain.ts';
import type { DerivationStep, Judged, Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import {
  COVERAGE,
  agreementOf,
  fixed,
  implausible,
  nothingExpected,
  plusMinus,
  sentences,
  sourceOf,
  withSource,
} from '../melting/compare.ts';
import { achiralSays, drawnAchiral, turns } from './achiral.ts';
import type { RotationEntered } from './schema.ts';
import { concentrationOf, ownRotation, specificOf } from './specific.ts';
import type { Found, Obstacle } from './found.ts';
import { LIMITS } from './found.ts';
import { excessStatement } from './excess.ts';

const CODE = 'rotation-implausible';
const MOST_DEG = 180;
/** Tubes are 0.1 to 4 dm long: common practice. */
const SHORTEST_DM = 0.01;
const LONGEST_DM = 5;
/** A pure enantiomer that rotates less than this tells nothing of an excess (judgement). */
const LEAST_PURE = 0.1;
const LEAST_G_ML = 1e-6;
const MOST_G_ML = 3.5;
/** Relative u of a literature value: solvents, temperatures and purities differ (common practice). */
const LITERATURE_U = 0.02;
/** The sodium D line, 589.3 nm, and what counts as it. */
const D_LINE_NM = 589;
const D_WITHIN_NM = 4;

function refused(entered: RotationEntered): Diagnostic | undefined {
  const { observed_deg, blank_deg, length_dm, sample } = entered;
  const angle = [observed_deg, blank_deg ?? 0].find((deg) => Math.abs(deg) > MOST_DEG);
  if (angle !== undefined)
    return implausible(
      CODE,
      `A polarimeter does not show ${fixed(angle, 1)}°.`,
      'Enter the angle as it was read, between −180° and +180°, not the specific rotation.',
    );
  if (!(length_dm >= SHORTEST_DM && length_dm <= LONGEST_DM))
    return implausible(
      CODE,
      `A tube of ${fixed(length_dm, 2)} dm cannot be.`,
      'Enter decimetres: 10 cm are 1 dm.',
    );
  const c_g_mL = concentrationOf(sample);
  if (!(c_g_mL >= LEAST_G_ML && c_g_mL <= MOST_G_ML))
    return implausible(
      CODE,
      `A concentration of ${fixed(c_g_mL, 4)} g/mL cannot be.`,
      'Look at the unit: g/100 mL and g/mL differ by a factor of 100.',
    );
  return undefined;
}

/** Short names of the usual solvents. */
const SOLVENTS: Readonly<Record<string, string>> = {
  etoh: 'ethanol',
  meoh: 'methanol',
  chcl3: 'chloroform',
  ch2cl2: 'dichloromethane',
  dcm: 'dichloromethane',
  'methylene chloride': 'dichloromethane',
  h2o: 'water',
  me2co: 'acetone',
  ether: 'diethyl ether',
  et2o: 'diethyl ether',
  etoac: 'ethyl acetate',
  phme: 'toluene',
};

function sameSolvent(a: string, b: string): boolean {
  const [one, other] = [a, b].map((name) => {
    const key = name.trim().toLowerCase();
    return SOLVENTS[key] ?? key;
  });
  return one === other;
}

function obstacleOf({ wavelength_nm = D_LINE_NM, sample, literature }: RotationEntered): Obstacle {
  if (Math.abs(wavelength_nm - D_LINE_NM) > D_WITHIN_NM)
    return `It was measured at ${fixed(wavelength_nm, 0)} nm, and the literature value holds for the sodium line at 589 nm.`;
  const solvent = sample.kind === 'solution' ? sample.solvent : undefined;
  if (literature?.solvent === undefined) return undefined;
  if (sample.kind === 'neat')
    return `The neat liquid was measured, and the literature value holds for ${literature.solvent}.`;
  if (solvent !== undefined && !sameSolvent(solvent, literature.solvent))
    return `It was measured in ${solvent}, and the literature value holds for ${literature.solvent}.`;
  return undefined;
}

/** Factors by which a unit goes wrong, each with what it would be. */
const FACTORS: readonly (readonly [number, string])[] = [
  [100, 'g/100 mL was entered as g/mL, or the reverse'],
  [0.01, 'g/100 mL was entered as g/mL, or the reverse'],
  [10, 'the tube was entered in cm, or the decimal point is wrong'],
  [0.1, 'the tube was entered in cm, or the decimal point is wrong'],
];

function remarks({ specific, pure, excess, obstacle, tooDilute }: Found): Diagnostic[] {
  if (obstacle !== undefined || tooDilute) return [];
  const ratio = Math.abs(specific.value / pure.value);
  const slip = FACTORS.find(([factor]) => Math.abs(ratio / factor - 1) < 0.1);
  // A tenth or a hundredth of the rotation may well be true: only too much is sure to be wrong.
  if (slip !== undefined && slip[0] > 1)
    return [
      {
        code: 'rotation-unit',
        severity: 'warning',
        message: `The specific rotation is ${slip[0]} times that of the pure enantiomer.`,
        hint: `Perhaps ${slip[1]}.`,
      },
    ];
  if (Math.abs(excess.value) <= 100 + COVERAGE * standardUncertainty(excess)) return [];
  return [
    {
      code: 'rotation-above-pure',
      severity: 'warning',
      message: `The sample rotates more than the pure enantiomer can: ${fixed(Math.abs(excess.value), 0)} % of it.`,
      hint: 'Check concentration, tube, blank and solvent. A strongly rotating impurity does this too.',
    },
  ];
}

function figure({ specific }: Found): string {
  const text = plusMinus(specific.value, standardUncertainty(specific));
  return `[α] = ${specific.value > 0 ? '+' : ''}${text}`;
}

type Outcome = Pick<Statement, 'agreement' | 'weight' | 'says'>;

function comparison(found: Found): Outcome {
  const { name, specific, pure, obstacle, tooDilute, full_deg } = found;
  const u = Math.hypot(standardUncertainty(specific), standardUncertainty(pure));
  const seen = Math.abs(specific.value) > COVERAGE * standardUncertainty(specific);
  if (obstacle !== undefined) return { agreement: 'cannotTell', weight: 'weak', says: obstacle };
  if (tooDilute)
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: `Even pure ${name} would turn the light by only ${fixed(full_deg, 2)}° here, which the reading cannot tell from nothing. Take more substance or a longer tube.`,
    };
  if (!seen)
    return {
      agreement: 'disagrees',
      weight: 'moderate',
      says: `No rotation was seen: the sample is racemic, or is not ${name}.`,
    };
  if (Math.sign(specific.value) !== Math.sign(pure.value))
    return {
      agreement: 'disagrees',
      weight: 'moderate',
      says: `The sample turns the light the other way than ${name}: the other enantiomer is in excess, or it is something else.`,
    };
  const difference = Math.abs(specific.value) - Math.abs(pure.value);
  if (agreementOf(difference, u) === 'agrees')
    return {
      agreement: 'agrees',
      weight: 'moderate',
      says: `The sample turns the light as ${name} does, in direction and in size.`,
    };
  return difference > 0
    ? {
        agreement: 'disagrees',
        weight: 'weak',
        says: `The sample turns the light further than pure ${name}; a number is wrong, or something else rotates.`,
      }
    : {
        agreement: 'cannotTell',
        weight: 'weak',
        says: `The sample turns the light in the direction of ${name}, but less far: partly the other enantiomer, or impure.`,
      };
}

function stepsOf(entered: RotationEntered, specific: Uncertain): readonly DerivationStep[] {
  const { sample, length_dm } = entered;
  const alpha = ownRotation(entered);
  const c_g_mL = concentrationOf(sample);
  return [
    {
      label: 'Rotation less the blank',
      formula: 'α − α_blank',
      value: `${plusMinus(alpha.value, standardUncertainty(alpha))}°`,
    },
    {
      label: 'Specific rotation',
      formula: 'α/(l·c), l in dm, c in g/mL',
      value: `${fixed(alpha.value, 3)}/(${fixed(length_dm, 2)} × ${fixed(c_g_mL, 4)}) = ${plusMinus(specific.value, standardUncertainty(specific))}`,
      source: 'IUPAC Gold Book, specific optical rotatory power',
    },
  ];
}

/** A product without a stereocentre: whatever turns the light is something else. */
function achiral(
  bare: Omit<Statement, 'expected' | 'agreement' | 'weight' | 'says' | 'limits'>,
  name: string,
  isTurned: boolean,
): Statement {
  return {
    ...bare,
    about: 'contaminant',
    expected: 'none',
    agreement: isTurned ? 'disagrees' : 'agrees',
    weight: isTurned ? 'moderate' : 'weak',
    says: achiralSays(name, isTurned),
    limits:
      'A racemate and an achiral impurity do not rotate either. A chiral axis or helix is not looked for.',
  };
}

/**
 * An optical rotation judged: the specific rotation against that of the pure enantiomer, and the
 * enantiomeric excess that would explain it.
 */
export function judgeRotation(entered: RotationEntered, { product }: Subjects): Judged {
  const refusal = refused(entered);
  if (refusal !== undefined) return { statements: [], diagnostics: [refusal] };
  const specific = specificOf(entered);
  const steps = stepsOf(entered, specific);
  const value = product?.literature.specificRotation;
  const name = product?.substance.name;
  const where = `${fixed(entered.T_C, 0)} °C, ${fixed(entered.wavelength_nm ?? D_LINE_NM, 0)} nm`;
  const base = {
    id: 'rotation',
    technique: 'rotation',
    about: 'identity',
    what: 'Specific rotation',
  } as const;
  if (
    product === undefined ||
    name === undefined ||
    value === undefined ||
    Math.abs(value) < LEAST_PURE
  ) {
    const measuredText = `[α] = ${plusMinus(specific.value, standardUncertainty(specific))} (${where})`;
    const bare = { ...base, measured: measuredText, derivation: steps };
    if (name !== undefined && drawnAchiral(product?.substance.smiles))
      return { statements: [achiral(bare, name, turns(entered))], diagnostics: [] };
    return { statements: [nothingExpected(bare, name, 'specific rotation')], diagnostics: [] };
  }
  const alpha = ownRotation(entered);
  const least_deg = 2 * COVERAGE * standardUncertainty(alpha);
  const full_deg = Math.abs(value) * entered.length_dm * concentrationOf(entered.sample);
  const pure = measured('literature', value, LITERATURE_U * value);
  const source = sourceOf(product.literature, 'specificRotation');
  const found: Found = {
    name,
    specific,
    pure,
    excess: scale(divide(specific, pure), 100),
    expected: withSource(`[α] = ${value > 0 ? '+' : ''}${fixed(value, 1)}`, source),
    obstacle: obstacleOf(entered),
    full_deg,
    tooDilute: Math.max(full_deg, Math.abs(alpha.value)) < least_deg,
  };
  const outcome = comparison(found);
  const excess = excessStatement(found);
  const first: Statement = {
    ...base,
    substance: name,
    measured: `${figure(found)} (${where})`,
    expected: found.expected,
    ...outcome,
    limits: sentences(
      LIMITS,
      'One reading does not tell a rotation from one 180° more or less; half the concentration or half the tube does.',
      entered.literature?.solvent === undefined &&
        'The solvent of the literature value was not given.',
    ),
    derivation: steps,
  };
  return {
    statements: [first, ...(excess === undefined ? [] : [excess])],
    diagnostics: remarks(found),
  };
}
