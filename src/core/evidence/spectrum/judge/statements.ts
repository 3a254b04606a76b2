import type { Statement } from '../../statement.ts';
import type { ContaminantJudgement } from './contaminants.ts';
import type { BandJudgement } from './expected.ts';
import type { BandEvidence, GroupJudgement } from './group-judgement.ts';
import { GROUP_WORDS, aGroup } from './group-words.ts';
import type { InfraredJudgement, InfraredQuestion } from './judge.ts';
import { GENERAL_LIMITS } from './limits.ts';
import { holds } from './structure-groups.ts';

export type Parts = Omit<InfraredJudgement, 'statements' | 'summary'>;

/** Every conclusion as a statement: what was measured, what was expected, what it can carry. */
export function statementsOf(parts: Parts, question: InfraredQuestion): readonly Statement[] {
  return [
    ...identityOf(parts, question),
    ...changesOf(parts, question),
    ...residualOf(parts),
    ...parts.contaminants.map(contaminantOf),
    ...unexplainedOf(parts),
  ];
}

const place = ({ position_percm }: BandEvidence): string => `${Math.round(position_percm)} cm⁻¹`;

const windowText = ([low, high]: readonly [number, number]): string => `${low}–${high} cm⁻¹`;

/** Bands that a firm verdict was reached on and that the product must show. */
export function telling(bands: readonly BandJudgement[]): readonly BandJudgement[] {
  return bands.filter(
    ({ duty, verdict, proves }) => duty === 'must' && verdict !== 'cannotTell' && proves === 'much',
  );
}

/** Firm groups that the product does not have, nor water or a named contaminant explains. */
export function foreignGroups(parts: Parts, question: InfraredQuestion): readonly GroupJudgement[] {
  const facts = question.product?.facts;
  if (facts === undefined) return [];
  const wet = parts.contaminants.some(
    ({ id, verdict }) => verdict !== 'absent' && (id === 'water' || id === 'disc-moisture'),
  );
  return parts.groups.filter(
    ({ group, verdict }) =>
      verdict === 'present' &&
      !holds(facts, group) &&
      !(group === 'oh' && wet) &&
      (group === 'carbonyl' ||
        group === 'oh' ||
        group === 'nitrile' ||
        group === 'nitro' ||
        group === 'acid'),
  );
}

function identityOf(parts: Parts, question: InfraredQuestion): Statement[] {
  const name = question.product?.name;
  if (question.product?.facts === undefined || name === undefined) return [];
  const told = telling(parts.bands);
  const seen = told.filter(({ verdict }) => verdict === 'present');
  const missing = told.filter(({ verdict }) => verdict === 'absent');
  const foreign = foreignGroups(parts, question);
  const strongly = seen.filter(({ window_percm: [low] }) => low > 1500);
  const agreement =
    missing.length > 0 || foreign.length > 0
      ? 'disagrees'
      : strongly.length > 0
        ? 'agrees'
        : 'cannotTell';
  const list = (bands: readonly BandJudgement[]) =>
    bands.map((one) => one.what + (one.evidence ? ` ${place(one.evidence)}` : '')).join('; ');
  const says = {
    agrees: `The bands of ${name} that must be there are there. That fits ${name} and everything with the same groups.`,
    disagrees: [
      ...(missing.length > 0 ? [`Missing: ${list(missing)}.`] : []),
      ...foreign.map(({ group }) => `${aGroup(group, true)} is seen, which ${name} does not have.`),
    ].join(' '),
    cannotTell: `No band above 1500 cm⁻¹ that ${name} must have could be judged.`,
  }[agreement];
  return [
    {
      id: 'infrared-groups',
      technique: 'infrared',
      about: 'identity',
      substance: name,
      what: 'Groups of the product',
      measured: list(seen) || 'none of them',
      expected: told
        .map(({ what, window_percm }) => `${what} ${windowText(window_percm)}`)
        .join('; '),
      agreement,
      weight: agreement === 'cannotTell' ? 'weak' : 'moderate',
      says,
      limits: GENERAL_LIMITS,
    },
  ];
}

const AGREEMENT = { present: 'agrees', absent: 'disagrees', cannotTell: 'cannotTell' } as const;

function changesOf({ change, groups }: Parts, { product }: InfraredQuestion): Statement[] {
  return change.map(({ group, kind, verdict, says, limits }) => {
    const evidence = groups.find((one) => one.group === group)?.evidence[0];
    return {
      id: `infrared-change-${group}`,
      technique: 'infrared',
      about: 'change',
      ...(product && { substance: product.name }),
      what: `${GROUP_WORDS[group]}, ${kind === 'gone' ? 'should be gone' : 'should be new'}`,
      measured: evidence === undefined ? 'no band' : place(evidence),
      expected: kind === 'gone' ? 'no band' : 'a band',
      agreement: AGREEMENT[verdict],
      weight: verdict === 'cannotTell' ? 'weak' : 'moderate',
      says,
      limits,
    };
  });
}

function residualOf({ residual }: Parts): Statement[] {
  if (residual === undefined) return [];
  const measured = residual.kind === 'measured';
  return [
    {
      id: 'infrared-residual',
      technique: 'infrared',
      about: 'startingMaterial',
      substance: residual.of,
      what: `${residual.of} that is left`,
      measured: `${measured ? '' : 'at most '}${Math.round(residual.share * 100)} % by absorbance`,
      expected: 'none',
      agreement: measured ? 'disagrees' : residual.share > 0.2 ? 'cannotTell' : 'agrees',
      weight: residual.from === 'reference' ? 'moderate' : 'weak',
      says: residual.says,
      limits:
        'A share by absorbance is no mass share: bands of different substances differ in strength. ' +
        'What is below the bound is not seen.',
    },
  ];
}

function contaminantOf({
  id,
  name,
  verdict,
  evidence,
  reasons,
  note,
}: ContaminantJudgement): Statement {
  const says = {
    present: `${name} is likely there. ${reasons.join(' ')}`,
    absent: `Nothing of ${name} is seen. ${reasons.join(' ')}`,
    cannotTell: `Whether ${name} is there cannot be told. ${reasons.join(' ')}`,
  }[verdict];
  return {
    id: `infrared-contaminant-${id}`,
    technique: 'infrared',
    about: 'contaminant',
    substance: name,
    what: name,
    measured: evidence.map(place).join(', ') || 'none of its bands',
    expected: 'none of its bands',
    agreement: { present: 'disagrees', absent: 'agrees', cannotTell: 'cannotTell' }[verdict] as
      'disagrees' | 'agrees' | 'cannotTell',
    weight: 'weak',
    says,
    limits: `A few per cent of ${name} may not show.${note === '' ? '' : ` Note: ${note}.`}`,
  };
}

function unexplainedOf({ unexplained }: Parts): Statement[] {
  if (unexplained.length === 0) return [];
  const places = unexplained.map(place).join(', ');
  return [
    {
      id: 'infrared-unexplained',
      technique: 'infrared',
      about: 'purity',
      what: 'Bands that nothing explains',
      measured: places,
      expected: 'none',
      agreement: 'cannotTell',
      weight: 'weak',
      says: `Neither the product nor anything that was looked for explains ${places}.`,
      limits: 'Overtones and combinations give such bands too. Below 1500 cm⁻¹ nothing was listed.',
    },
  ];
}
