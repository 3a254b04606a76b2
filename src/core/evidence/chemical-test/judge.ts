import type { Diagnostic } from '../../diagnostic.ts';
import type { Judged, Statement } from '../statement.ts';
import type { StructureFacts } from '../structure.ts';
import type { Subjects } from '../subject.ts';
import { expectedOf } from './expected.ts';
import type { Expectation } from './expected.ts';
import { groupNames } from './groups.ts';
import type { ChemicalTestEntered, TestEntered } from './schema.ts';
import { findChemicalTest } from './table.ts';
import type { ChemicalTest } from './table.ts';

/** Structures, as far as they are known: starting materials in the order of the subjects. */
export interface TestedStructures {
  readonly product?: StructureFacts;
  readonly startingMaterials: readonly StructureFacts[];
}

interface Case {
  readonly test: ChemicalTest;
  readonly entered: TestEntered;
  readonly id: string;
  readonly product: string;
  /** Neither unclear nor undone by its controls. */
  readonly counts: boolean;
}

const NO_STRUCTURES: TestedStructures = { startingMaterials: [] };

/**
 * Chemical tests, judged: what each says of the product, and whether it tells the product from the
 * starting materials. See docs/methods/chemical-tests.md.
 */
export function judgeChemicalTest(
  entered: ChemicalTestEntered,
  subjects: Subjects,
  structures: TestedStructures = NO_STRUCTURES,
): Judged {
  const statements: Statement[] = [];
  const diagnostics: Diagnostic[] = [];
  entered.tests.forEach((one, i) => {
    const test = findChemicalTest(one.test);
    if (test === undefined) {
      diagnostics.push({
        code: 'test-unknown',
        severity: 'warning',
        message: `No test is called ${one.test}.`,
        hint: 'Choose one of the table; what was seen stays on record as it is.',
      });
      return;
    }
    const problems = controlsOf(test, one);
    diagnostics.push(...problems);
    const it: Case = {
      test,
      entered: one,
      id: `test-${i + 1}`,
      product: subjects.product?.substance.name ?? 'the product',
      counts: one.result !== 'unclear' && problems.length === 0,
    };
    if (test.use === 'workUp') statements.push(workUpOf(it));
    else if (isOfProduct(it)) statements.push(...structureOf(it, subjects, structures));
    else statements.push(elsewhere(it));
  });
  return { statements, diagnostics };
}

function controlsOf(test: ChemicalTest, { blank, knownPositive }: TestEntered): Diagnostic[] {
  const problems: Diagnostic[] = [];
  if (blank !== undefined && blank !== 'negative')
    problems.push({
      code: 'test-blank-answers',
      severity: 'warning',
      message:
        `${test.name}: the reagent answers without a sample, so that the test does not ` + 'count.',
      hint: 'Clean the tube, take fresh reagent and a solvent that does not react.',
    });
  if (knownPositive !== undefined && knownPositive !== 'positive')
    problems.push({
      code: 'test-control-fails',
      severity: 'warning',
      message:
        `${test.name}: a substance that must answer does not, so that the test does ` +
        'not count.',
      hint: 'Take fresh reagent and repeat both.',
    });
  return problems;
}

function baseOf({ test, entered }: Case) {
  const wrong =
    entered.result === 'negative'
      ? test.falseNegatives === ''
        ? ''
        : `It can fail: ${test.falseNegatives}.`
      : test.falsePositives === ''
        ? ''
        : `It can mislead: ${test.falsePositives}.`;
  return {
    technique: 'chemicalTest' as const,
    what: test.name,
    measured: entered.observed ?? SEEN[entered.result](test),
    limits: [
      'A test in a tube shows a kind of group, not a substance, and not how much.',
      wrong,
      test.cautions === ''
        ? ''
        : `${test.cautions} See the supplier’s safety data sheet and local rules.`,
    ]
      .filter((text) => text !== '')
      .join(' '),
  };
}

const SEEN: Readonly<Record<TestEntered['result'], (test: ChemicalTest) => string>> = {
  positive: ({ positive }) => positive,
  negative: ({ negative }) => negative,
  unclear: () => 'unclear',
};

function workUpOf(it: Case): Statement {
  const { test, entered, counts } = it;
  const sample = entered.sample ?? 'the sample';
  return {
    ...baseOf(it),
    id: it.id,
    about: 'contaminant',
    expected: test.negative,
    agreement: !counts ? 'cannotTell' : entered.result === 'negative' ? 'agrees' : 'disagrees',
    weight: test.weight,
    says: !counts
      ? `${test.name} on ${sample} does not decide.`
      : entered.result === 'negative'
        ? `${test.name} on ${sample}: nothing found.`
        : `${test.name} on ${sample}: ${test.positive}.`,
  };
}

function structureOf(it: Case, subjects: Subjects, structures: TestedStructures): Statement[] {
  const own =
    structures.product === undefined ? undefined : expectedOf(it.test, structures.product);
  const names = subjects.others
    .filter(({ role }) => role === 'startingMaterial')
    .map(({ substance }) => substance.name);
  const others = structures.startingMaterials.flatMap((facts, i) =>
    // Of a structure that is not known nothing can be expected, a negative answer least
    facts.smiles === ''
      ? []
      : [
          {
            n: i + 1,
            name: names[i] ?? 'the starting material',
            expected: expectedOf(it.test, facts),
          },
        ],
  );
  const apart = others.map(({ name, expected, n }) => separationOf(it, own, expected, name, n));
  // Tests are sensitive: a little of what answers is enough.
  const culprit = others.find(({ expected }) => expected.result === 'positive')?.name;
  return [productOf(it, own, culprit), ...(own === undefined ? [] : apart)];
}

const PRODUCT_WORDS =
  /^(?:the )?(?:(?:crude|pure|dry|wet|recrystalli[sz]ed) )?(?:product|sample|crystals|solid|oil)$/i;

/** Whether a test was done on what the experiment makes: so it is where nothing else is said. */
function isOfProduct({ entered: { sample = '' }, product }: Case): boolean {
  const words = sample.trim();
  return words === '' || PRODUCT_WORDS.test(words) || words.toLowerCase() === product.toLowerCase();
}

/** A test on a starting material or a known substance is a control: it says nothing of the product. */
function elsewhere(it: Case): Statement {
  const { test, entered } = it;
  return {
    ...baseOf(it),
    id: it.id,
    about: 'instrument',
    expected: '',
    agreement: 'cannotTell',
    weight: 'weak',
    says: `${test.name} on ${entered.sample ?? ''} is ${entered.result}. It is not of the product.`,
  };
}

function expectationText(test: ChemicalTest, { result, because }: Expectation): string {
  if (result === 'positive') return `${test.positive} (${groupNames(because)})`;
  if (result === 'negative') return `${test.negative} (no group that answers)`;
  return `either way (${groupNames(because)})`;
}

function productOf(it: Case, own: Expectation | undefined, culprit?: string): Statement {
  const { test, entered, counts, product } = it;
  const base = {
    ...baseOf(it),
    id: it.id,
    about: 'identity',
    substance: product,
    expected: own === undefined ? '' : expectationText(test, own),
    derivation: [
      { label: 'What the test answers to', value: answersTo(test), source: test.source },
    ],
  } as const;
  const undecided = (says: string): Statement => ({
    ...base,
    agreement: 'cannotTell',
    weight: 'weak',
    says,
  });
  if (!counts) return undecided(`${test.name} does not decide.`);
  if (own === undefined)
    return undecided(
      entered.result === 'positive'
        ? `${test.name} is positive, as with ${answersTo(test)}.`
        : `${test.name} is negative: it speaks against ${answersTo(test)}.`,
    );
  if (own.result === 'open')
    return undecided(`${test.name} can go either way with ${product}, and decides nothing.`);
  if (own.result === 'negative' && entered.result === 'positive' && culprit !== undefined)
    return undecided(
      `${test.name} is positive, which ${product} would not be; a little ${culprit} ` +
        'would explain it.',
    );
  const fits = own.result === entered.result;
  // That a group is missing, or there as in the starting material, fits very many substances
  const tells = !fits || (entered.result === 'positive' && culprit === undefined);
  return {
    ...base,
    agreement: fits ? 'agrees' : 'disagrees',
    weight: tells ? test.weight : 'weak',
    says: fits
      ? `${test.name} is ${entered.result}, as it should be for ${product}.`
      : `${test.name} is ${entered.result}; for ${product} it should be ${own.result}.`,
  };
}

function answersTo({ detects, may }: ChemicalTest): string {
  return groupNames(detects.length > 0 ? detects : may);
}

/**
 * Whether the test tells the product from a starting material, and which of the two it points to.
 */
function separationOf(
  it: Case,
  own: Expectation | undefined,
  other: Expectation,
  name: string,
  n: number,
): Statement {
  const { test, entered, counts, product } = it;
  const base = {
    ...baseOf(it),
    id: `${it.id}-starting-material-${n}`,
    about: 'startingMaterial',
    substance: name,
    expected: `${name}: ${expectationText(test, other)}`,
  } as const;
  const tells =
    own !== undefined &&
    own.result !== 'open' &&
    other.result !== 'open' &&
    own.result !== other.result;
  if (!counts || !tells)
    return {
      ...base,
      agreement: 'cannotTell',
      weight: 'weak',
      says: tells
        ? `${test.name} does not decide.`
        : `${test.name} does not tell ${product} from ${name}.`,
    };
  if (entered.result === 'negative' && own.result === 'negative')
    return {
      ...base,
      agreement: 'agrees',
      weight: test.weight,
      says: `${test.name} is negative: no ${name} is seen.`,
    };
  if (entered.result === 'positive' && own.result === 'negative')
    return {
      ...base,
      agreement: 'disagrees',
      weight: test.weight,
      says: `${test.name} is positive, as with ${name}: some of it may be left.`,
    };
  // The product is what answers: the test shows whether there is any, not what is beside it.
  const formed = entered.result === 'positive';
  return {
    ...base,
    about: 'change',
    substance: product,
    agreement: formed ? 'agrees' : 'disagrees',
    weight: test.weight,
    says: formed
      ? `${test.name} is positive, as for ${product}; ${name} beside it would not show.`
      : `${test.name} is negative, as with ${name}: there may be no ${product} at all.`,
  };
}
