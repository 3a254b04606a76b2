import type { Question, Statement, Technique } from '../../evidence/statement.ts';
import { techniqueWords } from '../../evidence/technique-words.ts';

/** A statement and the entry of the record that it was drawn from. */
export interface SourcedStatement {
  readonly entry: string;
  readonly statement: Statement;
}

/** `mixed`: some measurements say yes and some no. `open`: measured, and undecided. */
export type Outcome = 'yes' | 'no' | 'mixed' | 'open' | 'notMeasured';

export interface VerdictRow {
  readonly question: Question;
  /** As the table asks it: "Is it the product?" */
  readonly asks: string;
  readonly outcome: Outcome;
  /** The answer in words, with what it rests on. */
  readonly says: string;
  /** The rule by which the statements gave this outcome. */
  readonly rule: string;
  readonly statements: readonly SourcedStatement[];
}

const ASKS: Readonly<Record<Question, string>> = {
  identity: 'Is it the product?',
  change: 'Did the reaction change what it should?',
  startingMaterial: 'Is the starting material gone, as far as was looked?',
  contaminant: 'Is it free of solvent, water and the like, as far as was looked?',
  purity: 'Is it pure, as far as was measured?',
  instrument: 'Was the instrument right?',
};

export const QUESTIONS: readonly Question[] = [
  'identity',
  'change',
  'startingMaterial',
  'purity',
  'contaminant',
  'instrument',
];

interface Sides {
  readonly agree: readonly SourcedStatement[];
  readonly disagree: readonly SourcedStatement[];
  /** No measurement sees a change that the reaction should have made, and one of weight misses it. */
  readonly unchanged: boolean;
}

const techniquesOf = (statements: readonly SourcedStatement[]): readonly Technique[] => [
  ...new Set(statements.map(({ statement }) => statement.technique)),
];

/** Spectrum and test tube both show groups, often the very same one: together they are one kind. */
const SHOWS_GROUPS: readonly Technique[] = ['infrared', 'chemicalTest'];

const kindsIn = (statements: readonly SourcedStatement[]): number =>
  new Set(
    techniquesOf(statements).map((technique) =>
      SHOWS_GROUPS.includes(technique) ? 'groups' : technique,
    ),
  ).size;

const firm = (statements: readonly SourcedStatement[]): readonly SourcedStatement[] =>
  statements.filter(({ statement }) => statement.weight !== 'weak');

function listOf(statements: readonly SourcedStatement[]): string {
  const words = techniquesOf(statements).map(techniqueWords);
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

const fits = (statements: readonly SourcedStatement[]): string =>
  techniquesOf(statements).length > 1 ? 'fit' : 'fits';

interface Decided {
  readonly outcome: Outcome;
  readonly says: string;
  readonly rule: string;
}

const RULES = {
  notMeasured: 'Nothing was measured that could answer this.',
  open: 'Every measurement that bears on it leaves it open.',
  strongNo:
    'One strong measurement against it, two kinds of moderate weight, or one beside a change that was missed, decide it.',
  mixed: 'At least one measurement of some weight speaks for it and one against.',
  one: 'One kind of measurement alone never settles what a substance is.',
  groups:
    'Infrared spectrum and chemical tests show groups: they count as one kind of measurement.',
  oneNo: 'One kind of measurement of moderate weight against it does not decide it.',
  several: 'Two or more kinds of measurement that do not depend on each other, none against.',
  changed: 'A measurement of some weight sees the change, and none misses it.',
  notAll: 'A measurement misses a change that the reaction should have made.',
  weak: 'Only measurements of little weight bear on it.',
  anyNo: 'One measurement that sees it is enough; others may be blind to it.',
  noneSeen: 'No measurement that looked for it sees it; each has its own limit of detection.',
} as const;

/** What a substance is takes two kinds of measurement; one good contradiction is enough against it. */
function decideIdentity({ agree, disagree, unchanged }: Sides): Decided {
  const isStrong = ({ statement }: SourcedStatement) => statement.weight === 'strong';
  const against = firm(disagree);
  const forIt = firm(agree);
  const strong = disagree.some(isStrong);
  // Only a strong yes holds a strong no in doubt
  const doubted = strong ? agree.some(isStrong) : forIt.length > 0;
  if (against.length > 0 && doubted) return mixedOf(forIt, against);
  if (strong || techniquesOf(against).length > 1 || (against.length > 0 && unchanged))
    return { outcome: 'no', says: `The ${listOf(against)} does not fit it.`, rule: RULES.strongNo };
  if (against.length > 0)
    return {
      outcome: 'open',
      says: `The ${listOf(against)} speaks against it. One more kind of measurement is needed.`,
      rule: RULES.oneNo,
    };
  const kinds = kindsIn(forIt);
  if (kinds > 1)
    return {
      outcome: 'yes',
      says: `It fits by ${listOf(forIt)}, and nothing measured speaks against it.`,
      rule: RULES.several,
    };
  if (kinds === 1)
    return {
      outcome: 'open',
      says: `The ${listOf(forIt)} ${fits(forIt)} it. One more kind of measurement is needed.`,
      rule: techniquesOf(forIt).length > 1 ? RULES.groups : RULES.one,
    };
  return {
    outcome: 'open',
    says: `The ${listOf([...agree, ...disagree])} says little either way.`,
    rule: RULES.weak,
  };
}

function mixedOf(agree: readonly SourcedStatement[], disagree: readonly SourcedStatement[]) {
  const [one, other] = [listOf(agree), listOf(disagree)];
  const says =
    one === other
      ? `What the ${one} says of it does not go together. Look at it again.`
      : `The ${one} fits; the ${other} does not. Look at both again.`;
  return { outcome: 'mixed' as const, says, rule: RULES.mixed };
}

/** Whether something came or went is seen by one technique well enough; a doubt about it counts. */
function decideChange({ agree, disagree }: Sides): Decided {
  const said = (statements: readonly SourcedStatement[]) =>
    [...new Set(statements.map(({ statement }) => statement.says))].join(' ');
  if (disagree.length > 0) {
    const outcome = firm(agree).length > 0 ? 'mixed' : 'no';
    return { outcome, says: said(disagree), rule: RULES.notAll };
  }
  return firm(agree).length > 0
    ? { outcome: 'yes', says: said(agree), rule: RULES.changed }
    : { outcome: 'open', says: said(agree), rule: RULES.weak };
}

/** What should not be there: one measurement that sees it outweighs those that do not. */
function decideAbsence({ agree, disagree }: Sides): Decided {
  if (disagree.length > 0) {
    const said = disagree.map(({ statement }) => statement.says);
    return { outcome: 'no', says: [...new Set(said)].join(' '), rule: RULES.anyNo };
  }
  return {
    outcome: 'yes',
    says: `Nothing of the kind was seen (${listOf(agree)}).`,
    rule: RULES.noneSeen,
  };
}

const DECIDE: Readonly<Record<Question, (sides: Sides) => Decided>> = {
  identity: decideIdentity,
  change: decideChange,
  startingMaterial: decideAbsence,
  contaminant: decideAbsence,
  purity: decideAbsence,
  instrument: decideAbsence,
};

const YES: Readonly<Partial<Record<Question, string>>> = {
  purity: 'as pure as it can tell',
  instrument: 'read as it should',
};

/**
 * An identity statement may be about another substance (a mixed melting range with the starting
 * material): that the sample is that one speaks against the product, that it is not says nothing.
 */
function towards(product: string | undefined, { entry, statement }: SourcedStatement) {
  const { about, substance, agreement } = statement;
  const own = substance?.trim().toLowerCase() === product?.trim().toLowerCase();
  if (about !== 'identity' || substance === undefined || own) return { entry, statement };
  const turned = agreement === 'agrees' ? 'disagrees' : 'cannotTell';
  return { entry, statement: { ...statement, agreement: turned } as const };
}

/**
 * The statements of all measurements, sorted by what they answer: an open table with the rule that
 * gave each answer, and no figure that adds them up.
 */
export function verdictOf(
  statements: readonly SourcedStatement[],
  product?: string,
): readonly VerdictRow[] {
  const turned = statements.map((one) => towards(product, one));
  const changes = (wanted: Statement['agreement']) =>
    turned.filter(
      ({ statement: { about, agreement } }) => about === 'change' && agreement === wanted,
    );
  const unchanged = firm(changes('disagrees')).length > 0 && changes('agrees').length === 0;
  return QUESTIONS.map((question) => {
    const asked = turned.filter(({ statement }) => statement.about === question);
    const row = { question, asks: ASKS[question], statements: asked };
    if (asked.length === 0)
      return { ...row, outcome: 'notMeasured', says: 'Not measured.', rule: RULES.notMeasured };
    const by = (wanted: Statement['agreement']) =>
      asked.filter(({ statement }) => statement.agreement === wanted);
    const sides = { agree: by('agrees'), disagree: by('disagrees'), unchanged };
    if (sides.agree.length + sides.disagree.length === 0)
      return {
        ...row,
        outcome: 'open',
        says: `The ${listOf(asked)} cannot tell.`,
        rule: RULES.open,
      };
    const decided = DECIDE[question](sides);
    const words = decided.outcome === 'yes' ? YES[question] : undefined;
    return words === undefined
      ? { ...row, ...decided }
      : { ...row, ...decided, says: `By ${listOf(sides.agree)}: ${words}.` };
  });
}

function openSentence(statements: readonly SourcedStatement[], name: string): string {
  const against = firm(statements.filter(({ statement }) => statement.agreement === 'disagrees'));
  if (against.length > 0)
    return `The ${listOf(against)} speaks against ${name}; one more kind of measurement is needed.`;
  const fitting = firm(statements.filter(({ statement }) => statement.agreement === 'agrees'));
  return fitting.length === 0
    ? `Nothing that was measured so far decides whether it is ${name}.`
    : `The ${listOf(fitting)} ${fits(fitting)} ${name}; one more kind of measurement is needed.`;
}

/** The first sentence of the page: what the sample is, in so far as it was measured. */
export function verdictSentence(rows: readonly VerdictRow[], product?: string): string {
  const row = (question: Question) => rows.find((each) => each.question === question);
  const identity = row('identity');
  const left = row('startingMaterial');
  const name = product ?? 'the product';
  const isIt: Readonly<Record<Outcome, string>> = {
    yes: `What was made fits ${name}.`,
    no: `What was made does not fit ${name}.`,
    mixed: `The measurements of ${name} contradict each other.`,
    open: openSentence(identity?.statements ?? [], name),
    notMeasured: `Nothing was measured yet that tells whether it is ${name}.`,
  };
  const first = isIt[identity?.outcome ?? 'notMeasured'];
  if (left?.outcome !== 'no') return first;
  const seen = [...left.statements, ...(row('change')?.statements ?? [])].filter(
    ({ statement }) => statement.agreement === 'disagrees',
  );
  return firm(seen).length > 0
    ? `${first} Some starting material is still in it.`
    : `${first} Some starting material may still be in it.`;
}
