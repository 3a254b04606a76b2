import type { Diagnostic } from '../../diagnostic.ts';
import { formatWithUncertainty } from '../../quantity/print.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Agreement, DerivationStep, Judged, PurityFigure, Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import {
  GIVEN_U,
  equivalentMass_g_mol,
  hydroxideMass_g_mol,
  hydroxideValue_mg_g,
  reckon,
  shareOf,
} from './reckon.ts';
import { caseOf } from './case.ts';
import type { Case } from './case.ts';
import { canReact } from './reacting-group.ts';
import type { TitrationEntered, TitrationKind } from './schema.ts';

/** From this share on a teaching preparation counts as pure. Common practice. */
const PURE_FROM = 0.98;
/**
 * Titres of one portion agree within this; of portions weighed apart, within twice. Common
 * practice.
 */
export const CONCORDANT_mL = 0.1;

const COUNTS_TOO: Readonly<Record<TitrationKind, string>> = {
  acid:
    'Any other acid counts too: carbon dioxide from the air, an acid left from the ' +
    'work-up. What is no acid is not seen.',
  base: 'Any other base counts too, carbonate and ammonia among them. What is no base is not seen.',
  saponification:
    'Any other ester counts too, and so do free acids. An ester that is slow to ' +
    'saponify reads low.',
  iodometric:
    'Any other oxidant counts too, and air over acid iodide. What oxidises no iodide is not seen.',
};

/**
 * A titration, judged: how much of the sample reacts as the product (or another substance) should,
 * its equivalent mass, and acid or saponification value. See docs/methods/titration.md.
 */
export function judgeTitration(entered: TitrationEntered, subjects: Subjects): Judged {
  const { result, diagnostics } = reckon(entered);
  if (result === undefined) return { statements: [], diagnostics };
  const one = caseOf(entered, subjects, result);
  if (one.subject !== undefined && !canReact(one.subject.substance, entered.kind))
    return { statements: strangerOf(one), diagnostics: [...diagnostics, inert(one)] };
  const statements = [...contentOf(one), ...equivalentOf(one), ...valueOf(one)];
  return { statements, diagnostics: [...diagnostics, ...remarksOn(one)] };
}

/** The analyte has no group that reacts: what did is something else, and no content of it. */
function strangerOf(one: Case): Statement[] {
  const { entered, result, analyte } = one;
  const value = hydroxideValue_mg_g(result.taken_mmol_g);
  const seen = value.value > 2 * standardUncertainty(value);
  return [
    {
      id: 'titrated-besides',
      technique: 'titration',
      about: 'contaminant',
      what: VALUE_NAME[entered.kind] ?? 'Titrated beside it',
      measured:
        entered.kind === 'base'
          ? `${shown(result.taken_mmol_g)} mmol of acid a gram`
          : `${shown(value)} mg KOH/g`,
      expected: `none: ${analyte} has no group that reacts`,
      agreement: seen ? 'disagrees' : 'agrees',
      weight: 'moderate',
      says: seen
        ? `Something in the sample reacts with ${entered.titrant}, and it is not ${analyte}.`
        : `Nothing in the sample is seen to react with ${entered.titrant}.`,
      limits: `It does not say what reacts, and is no content of ${analyte}.`,
      derivation: stepsOf(one),
    },
  ];
}

function inert({ analyte, entered }: Case): Diagnostic {
  return {
    code: 'titration-analyte-inert',
    severity: 'warning',
    message: `${analyte} has no group that reacts with ${entered.titrant}: no content of it is worked out.`,
    hint: 'Name as the analyte what reacts, an acid left over for one.',
  };
}

const shown = (x: Uncertain, k = 1): string =>
  formatWithUncertainty(k * x.value, 2 * k * standardUncertainty(x));

function stepsOf({ entered, result }: Case): DerivationStep[] {
  const back = entered.kind === 'saponification';
  return [
    {
      label: `Concentration of ${entered.titrant}`,
      formula: entered.strength.by === 'given' ? 'as told' : 'c = m·P·e/(M·V)',
      value: `${shown(result.concentration_mol_L)} mol/L`,
      ...(entered.strength.by === 'given' ? {} : { source: entered.strength.standard }),
    },
    {
      label: back ? 'Blank less titre' : 'Titre less blank',
      value: result.consumed_mL.map((volume) => `${shown(volume)} mL`).join('; '),
    },
    {
      label: 'Taken by a gram of sample',
      formula: back ? 'c·(V₀ − V)/m, mean of the runs' : 'c·(V − V₀)/m, mean of the runs',
      value: `${shown(result.taken_mmol_g)} mmol/g; ± is 2 u`,
    },
  ];
}

function contentOf(one: Case): Statement[] {
  const { entered, analyte, isProduct, molarMass, subject } = one;
  if (molarMass === undefined) return [];
  const share = shareOf(one.result.taken_mmol_g, molarMass, entered.equivalents);
  const u = standardUncertainty(share);
  const tooMuch = share.value - 2 * u > 1;
  const { rivals } = one;
  // What else in the flask takes titrant can only make the content look higher
  const purity: PurityFigure =
    rivals.length === 0
      ? { basis: 'mass', kind: 'measured', share: Math.min(1, share.value), u, of: analyte }
      : {
          basis: 'mass',
          kind: 'atMost',
          share: Math.min(1, share.value + 2 * u),
          u: 0,
          of: analyte,
        };
  const percent = `${shown(share, 100)} %`;
  return [
    {
      id: 'content',
      technique: 'titration',
      about: isProduct
        ? 'purity'
        : subject?.role === 'startingMaterial'
          ? 'startingMaterial'
          : 'contaminant',
      substance: analyte,
      what: `Content of ${analyte}`,
      measured: `${percent} by mass`,
      expected: isProduct ? `${100 * PURE_FROM} % or more` : '0 %',
      agreement: agreementOf(share, isProduct),
      weight: tooMuch ? 'weak' : rivals.length > 0 ? 'moderate' : 'strong',
      says: tooMuch
        ? `The sample takes more titrant than pure ${analyte} would.`
        : `Counted as ${analyte}, ${percent} of the sample reacts.`,
      limits:
        rivals.length === 0
          ? COUNTS_TOO[entered.kind]
          : `What is left of ${rivals.join(' or ')} counts as ${analyte} here. ${COUNTS_TOO[entered.kind]}`,
      ...(tooMuch ? {} : { purity }),
      derivation: [
        ...stepsOf(one),
        { label: 'Mass share', formula: 'n·M/e for a gram of sample', value: percent },
      ],
    },
  ];
}

function agreementOf(share: Uncertain, isProduct: boolean): Agreement {
  const u = standardUncertainty(share);
  if (!isProduct) return share.value <= 2 * u ? 'agrees' : 'disagrees';
  if (share.value - 2 * u > 1) return 'disagrees';
  return share.value + 2 * u >= PURE_FROM ? 'agrees' : 'disagrees';
}

/** Grams of sample for a mole of titrant against M/e: impurities that do not react raise it. */
function equivalentOf(one: Case): Statement[] {
  const { entered, analyte, isProduct, molarMass, result } = one;
  if (!isProduct || molarMass === undefined || entered.kind === 'iodometric') return [];
  const found = equivalentMass_g_mol(result.taken_mmol_g);
  const expected = molarMass.value / entered.equivalents;
  const agreement = sidedAgreement(found, expected, 'above');
  return [
    {
      id: 'equivalent-mass',
      technique: 'titration',
      about: 'identity',
      substance: analyte,
      what: 'Equivalent mass',
      measured: `${shown(found)} g/mol`,
      expected: `${expected.toFixed(2)} g/mol (${analyte}, ${entered.equivalents} to the mole)`,
      agreement,
      weight: 'weak',
      says: SAYS[agreement](`the equivalent mass of ${analyte}`),
      limits:
        'Many substances share an equivalent mass, and it supposes a pure, dry sample. ' +
        `${COUNTS_TOO[entered.kind]}`,
      derivation: [
        ...stepsOf(one),
        { label: 'Equivalent mass', formula: '1000/n', value: `${shown(found)} g/mol` },
      ],
    },
  ];
}

/** Beyond 2 u on the side where an inert impurity puts it, the measurement does not decide. */
function sidedAgreement(found: Uncertain, expected: number, inert: 'above' | 'below'): Agreement {
  const away = found.value - expected;
  if (Math.abs(away) <= 2 * standardUncertainty(found)) return 'agrees';
  return away > 0 === (inert === 'above') ? 'cannotTell' : 'disagrees';
}

const SAYS: Readonly<Record<Agreement, (what: string) => string>> = {
  agrees: (what) => `It agrees with ${what}.`,
  disagrees: (what) =>
    `It does not fit ${what}: the sample reacts with more titrant than it should.`,
  cannotTell: (what) =>
    `It differs from ${what} as a sample would that also holds something that does ` +
    'not react, water for one.',
};

const VALUE_NAME: Partial<Record<TitrationKind, string>> = {
  acid: 'Acid value',
  saponification: 'Saponification value',
};

function valueOf(one: Case): Statement[] {
  const { entered, analyte, isProduct, molarMass, result } = one;
  const what = VALUE_NAME[entered.kind];
  if (what === undefined) return [];
  const value = hydroxideValue_mg_g(result.taken_mmol_g);
  const known = isProduct && molarMass !== undefined;
  const expected = known
    ? (1000 * entered.equivalents * hydroxideMass_g_mol().value) / molarMass.value
    : undefined;
  const agreement =
    expected === undefined ? 'cannotTell' : sidedAgreement(value, expected, 'below');
  return [
    {
      id: entered.kind === 'acid' ? 'acid-value' : 'saponification-value',
      technique: 'titration',
      about: isProduct ? 'identity' : 'contaminant',
      substance: analyte,
      what,
      measured: `${shown(value)} mg KOH/g`,
      expected: expected === undefined ? '' : `${expected.toFixed(1)} mg KOH/g (pure ${analyte})`,
      agreement,
      weight: 'weak',
      says:
        expected === undefined
          ? `A gram of the sample takes as much base as ${shown(value)} mg of potassium hydroxide.`
          : SAYS[agreement](`the ${what.toLowerCase()} of ${analyte}`),
      limits: COUNTS_TOO[entered.kind],
      derivation: [
        ...stepsOf(one),
        {
          label: what,
          formula: 'n·M(KOH)',
          value: `${shown(value)} mg/g`,
          source: entered.kind === 'acid' ? 'Ph. Eur. 2.5.1' : 'Ph. Eur. 2.5.6',
        },
      ],
    },
  ];
}

function spread_mL({ result }: Case): number {
  const values = result.each_mmol_g.map(({ value }) => value);
  const titre = result.consumed_mL.reduce((all, { value }) => all + value, 0) / values.length;
  return ((Math.max(...values) - Math.min(...values)) / result.taken_mmol_g.value) * titre;
}

function remarksOn(one: Case): Diagnostic[] {
  const { entered, result, analyte, molarMass } = one;
  const counted = entered.runs.filter(({ leftOut }) => leftOut !== true);
  const alike = counted.every(({ sample_g }) => sample_g === counted[0]?.sample_g);
  const limit = alike ? CONCORDANT_mL : 2 * CONCORDANT_mL;
  const remarks: Diagnostic[] = [];
  const say = (code: string, severity: Diagnostic['severity'], message: string, hint: string) =>
    remarks.push({ code, severity, message, hint });
  if (result.each_mmol_g.length < 2)
    say(
      'titration-single',
      'note',
      'One run only: nothing shows how well it repeats.',
      'Titrate two or three times, until the titres agree.',
    );
  else if (spread_mL(one) > limit)
    say(
      'titres-not-concordant',
      'warning',
      `The runs differ by as much as ${spread_mL(one).toFixed(2)} mL in the titre ` +
        `(limit ${limit} mL).`,
      'Titrate once more; leave out a run only for a reason that you can name.',
    );
  if (counted.length < entered.runs.length)
    say(
      'titre-left-out',
      'note',
      `${entered.runs.length - counted.length} of ${entered.runs.length} runs are not counted.`,
      'Note the reason beside each.',
    );
  if (entered.strength.by === 'given' && entered.strength.u_mol_L === undefined)
    say(
      'titrant-not-standardised',
      'note',
      `The concentration of ${entered.titrant} is taken as told, good to ${100 * GIVEN_U} %.`,
      'Standardise it against a primary standard, or enter its uncertainty.',
    );
  if (molarMass === undefined)
    say(
      'titration-no-molar-mass',
      'note',
      `The molar mass of ${analyte} is not known, so that no content is worked out.`,
      'Give its formula or structure.',
    );
  return remarks;
}
