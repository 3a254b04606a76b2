import type { Statement } from '../../statement.ts';
import type { ContaminantJudgement } from './contaminants.ts';
import type { BandEvidence } from './group-judgement.ts';
import { GROUP_WORDS, capital } from './group-words.ts';
import { foreignGroups, identityOf, remainsOf } from './identity.ts';
import type { InfraredJudgement, InfraredQuestion } from './judge.ts';

export type Parts = Omit<InfraredJudgement, 'statements' | 'summary'>;

/** Every conclusion as a statement: what was measured, what was expected, what it can carry. */
export function statementsOf(parts: Parts, question: InfraredQuestion): readonly Statement[] {
  return [
    ...identityOf(parts, question),
    ...changesOf(parts, question),
    ...residualOf(parts),
    ...remainsOf(parts, question),
    ...contaminantsOf(parts),
    ...unexplainedOf(parts, question),
  ];
}

const place = ({ position_percm }: BandEvidence): string => `${Math.round(position_percm)} cm⁻¹`;

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
  return [
    {
      id: 'infrared-residual',
      technique: 'infrared',
      about: 'startingMaterial',
      substance: residual.of,
      what: `${residual.of} that is left`,
      measured: {
        measured: `${Math.round(residual.share * 100)} % by absorbance`,
        atMost: `at most ${Math.round(residual.share * 100)} % by absorbance`,
        itself: 'its band, and no band of the product',
      }[residual.kind],
      expected: 'none',
      agreement:
        residual.kind !== 'atMost' ? 'disagrees' : residual.share > 0.2 ? 'cannotTell' : 'agrees',
      weight: residual.from === 'reference' ? 'moderate' : 'weak',
      says: residual.says,
      limits:
        'A share by absorbance is no mass share: bands of different substances differ in strength. ' +
        'What is below the bound is not seen.',
    },
  ];
}

/** What is there or cannot be told one by one; what is not seen together, with its limits once. */
function contaminantsOf({ contaminants }: Parts): Statement[] {
  const unseen = contaminants.filter(({ verdict }) => verdict === 'absent');
  const names = listed(unseen.map(({ name }) => name));
  return [
    ...contaminants.filter(({ verdict }) => verdict !== 'absent').map(contaminantOf),
    ...(unseen.length === 0
      ? []
      : [
          {
            id: 'infrared-contaminants-not-seen',
            technique: 'infrared' as const,
            about: 'contaminant' as const,
            what: 'What else may be in the sample',
            measured: 'not all of their bands',
            expected: 'none of their bands',
            agreement: 'agrees' as const,
            weight: 'weak' as const,
            says: `Nothing is seen of ${names}.`,
            limits: `A few per cent of ${unseen.length > 1 ? 'each of them' : 'it'} may not show.`,
          },
        ]),
  ];
}

/** "water, methanol and grease" */
function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}

function contaminantOf(one: ContaminantJudgement): Statement {
  const { id, name, verdict, evidence, reasons, note } = one;
  const isThere = verdict === 'present';
  return {
    id: `infrared-contaminant-${id}`,
    technique: 'infrared',
    about: 'contaminant',
    substance: name,
    what: capital(name),
    measured: evidence.map(place).join(', ') || 'none of its bands',
    expected: 'none of its bands',
    agreement: isThere ? 'disagrees' : 'cannotTell',
    weight: 'weak',
    says: isThere
      ? `${capital(name)} is likely there. ${reasons.join(' ')}`
      : `Whether ${name} is there cannot be told. ${reasons.join(' ')}`,
    limits: `A few per cent of ${name} may not show.${note === '' ? '' : ` Note: ${note}.`}`,
  };
}

/** Near the band of a group that was spoken of already. */
const SAME_BAND_PERCM = 10;

function unexplainedOf(parts: Parts, question: InfraredQuestion): Statement[] {
  const { unexplained } = parts;
  const said = foreignGroups(parts, question).flatMap(({ judged }) => judged.evidence);
  const ofOthers = parts.ofOthers.filter(
    ({ band }) =>
      !said.some((one) => Math.abs(one.position_percm - band.position_percm) < SAME_BAND_PERCM),
  );
  const shared = {
    technique: 'infrared',
    about: 'purity',
    expected: 'none',
    agreement: 'cannotTell',
    weight: 'weak',
  } as const;
  const places = unexplained.map(place).join(', ');
  return [
    ...(ofOthers.length === 0
      ? []
      : [
          {
            ...shared,
            id: 'infrared-of-others',
            what: 'Bands that are not of the product',
            measured: ofOthers.map(({ band }) => place(band)).join(', '),
            says: ofOthers
              .map(({ band, of }) => `${place(band)} may be of ${of.join(' or ')}.`)
              .join(' '),
            limits: 'Another substance can absorb at the same place.',
          },
        ]),
    ...(unexplained.length === 0
      ? []
      : [
          {
            ...shared,
            id: 'infrared-unexplained',
            what: 'Bands that nothing explains',
            measured: places,
            says: `Neither the product nor anything that was looked for explains ${places}.`,
            limits:
              'Overtones and combinations give such bands too. Below 1500 cm⁻¹ nothing was listed.',
          },
        ]),
  ];
}
