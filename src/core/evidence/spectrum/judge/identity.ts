import type { Statement } from '../../statement.ts';
import { bandsFor, vibrationKind } from './bands.ts';
import { at } from './evidence.ts';
import type { BandJudgement } from './expected.ts';
import type { BandEvidence, GroupJudgement, JudgedGroup } from './group-judgement.ts';
import { GROUP_WORDS, aGroup } from './group-words.ts';
import type { InfraredQuestion, NamedFacts } from './judge.ts';
import { GENERAL_LIMITS } from './limits.ts';
import type { Parts } from './statements.ts';
import { holds } from './structure-groups.ts';

/** A group that is seen and that the product does not have. */
export interface ForeignGroup {
  readonly judged: GroupJudgement;
  /** What went in and has it, by name; the starting materials first. */
  readonly of: readonly string[];
}

/** Groups whose presence is firm enough to speak against a product. */
const FIRM: readonly JudgedGroup[] = ['carbonyl', 'oh', 'nitrile', 'nitro', 'acid'];

/** Above it a band names a group; below it nearly every sample has bands. */
const TELLING_PERCM = 1500;
/** A foreign band as tall as this is no trace of something. */
const MUCH_SHARE = 0.5;

/** Bands that a firm verdict was reached on and that the product must show. */
export function telling(bands: readonly BandJudgement[]): readonly BandJudgement[] {
  return bands.filter(
    ({ duty, verdict, proves }) => duty === 'must' && verdict !== 'cannotTell' && proves === 'much',
  );
}

/** Firm groups that the product does not have, nor water explains. */
export function foreignGroups(parts: Parts, question: InfraredQuestion): readonly ForeignGroup[] {
  const facts = question.product?.facts;
  if (facts === undefined) return [];
  const wet = parts.contaminants.some(
    ({ id, verdict }) => verdict !== 'absent' && (id === 'water' || id === 'disc-moisture'),
  );
  const wentIn = [...question.startingMaterials, ...question.reagents, ...question.solvents];
  return parts.groups
    .filter(
      ({ group, verdict }) =>
        verdict === 'present' &&
        !holds(facts, group) &&
        !(group === 'oh' && wet) &&
        FIRM.includes(group),
    )
    .map((judged) => ({
      judged,
      of: wentIn.flatMap((one) =>
        one.facts !== undefined && holds(one.facts, judged.group) ? [one.name] : [],
      ),
    }));
}

/** Telling bands that no starting material has of the same kind at the same place. */
export function ownBands(
  bands: readonly BandJudgement[],
  startingMaterials: readonly NamedFacts[],
  state: Parameters<typeof bandsFor>[1],
): readonly BandJudgement[] {
  const theirs = startingMaterials.flatMap(({ facts }) =>
    facts === undefined ? [] : bandsFor(facts, state).map(({ band }) => band),
  );
  return telling(bands).filter(
    ({ what, window_percm: [low, high] }) =>
      low > TELLING_PERCM &&
      !theirs.some(
        (band) =>
          vibrationKind(band) === what.split(',')[0] &&
          Math.min(band.high_percm, high) - Math.max(band.low_percm, low) > 0.5 * (high - low),
      ),
  );
}

type Outcome = Pick<Statement, 'agreement' | 'weight' | 'says'>;

/** Does the trace fit the product, and does what is more in it come from what went in? */
export function identityOf(parts: Parts, question: InfraredQuestion): Statement[] {
  const name = question.product?.name;
  if (question.product?.facts === undefined || name === undefined) return [];
  const told = telling(parts.bands);
  const seen = told.filter(({ verdict }) => verdict === 'present');
  return [
    {
      id: 'infrared-groups',
      technique: 'infrared',
      about: 'identity',
      substance: name,
      what: 'Groups of the product',
      measured: listOf(seen) || 'none of them',
      expected: told
        .map(({ what, window_percm: [low, high] }) => `${what} ${low}–${high} cm⁻¹`)
        .join('; '),
      ...outcomeOf(parts, question, name),
      limits: GENERAL_LIMITS,
    },
  ];
}

function outcomeOf(parts: Parts, question: InfraredQuestion, name: string): Outcome {
  const told = telling(parts.bands);
  const missing = told.filter(({ verdict }) => verdict === 'absent');
  const foreign = foreignGroups(parts, question);
  const strangers = foreign.filter(({ of }) => of.length === 0);
  if (parts.onlyWater !== undefined)
    return disagrees(`${waterSays(parts.onlyWater)} No sign of ${name} is seen.`);
  if (missing.length > 0 || strangers.length > 0)
    return disagrees(
      [
        ...(missing.length > 0 ? [`Missing: ${listOf(missing)}.`] : []),
        ...foreign.map((one) => foreignSays(one, name)),
      ].join(' '),
    );
  const seen = told.filter(
    ({ verdict, window_percm: [low] }) => verdict === 'present' && low > TELLING_PERCM,
  );
  const fits = `The bands of ${name} that must be there are there. That fits ${name} and everything with the same groups.`;
  if (foreign.length > 0) return besideForeign(parts, question, name, fits, foreign);
  if (seen.length > 0) {
    const rest = restSays(parts);
    if (rest !== undefined) return { agreement: 'agrees', weight: 'weak', says: `${fits} ${rest}` };
    return { agreement: 'agrees', weight: 'moderate', says: fits };
  }
  return {
    agreement: 'cannotTell',
    weight: 'weak',
    says: `No band above 1500 cm⁻¹ that ${name} must have could be judged.`,
  };
}

/** From here on a share by both pure spectra is said beside the identity. */
const NOTABLE_SHARE = 0.1;

/** A band of the starting material that stands beside those of the product, too small for a group. */
function restSays({ residual }: Parts): string | undefined {
  if (residual?.kind !== 'measured') return undefined;
  if (residual.from === 'reference' && residual.share < NOTABLE_SHARE) return undefined;
  const place = residual.position_percm === undefined ? '' : ` at ${at(residual.position_percm)}`;
  return `Besides them a band${place} stands, as ${residual.of} has.`;
}

/** Every foreign group is of something that went in: a rest of it, or it alone? */
function besideForeign(
  parts: Parts,
  question: InfraredQuestion,
  name: string,
  fits: string,
  foreign: readonly ForeignGroup[],
): Outcome {
  const more = foreign.map(
    ({ judged, of }) =>
      `Besides them ${aGroup(judged.group)} is seen${placeOf(judged)}, as ${of.join(' and ')} ` +
      `${of.length > 1 ? 'have' : 'has'}.`,
  );
  const own = ownBands(parts.bands, question.startingMaterials, question.spectrum.state ?? 'film');
  if (own.some(({ verdict }) => verdict === 'present'))
    return { agreement: 'agrees', weight: 'weak', says: [fits, ...more].join(' ') };
  const nothingOwn = `No band is seen that ${name} has and what went in has not.`;
  const says = [...foreign.map((one) => foreignSays(one, name)), nothingOwn].join(' ');
  const isMuch = foreign.some(({ judged }) => (judged.evidence[0]?.share ?? 0) > MUCH_SHARE);
  return isMuch ? disagrees(says) : { agreement: 'cannotTell', weight: 'weak', says };
}

const disagrees = (says: string): Outcome => ({
  agreement: 'disagrees',
  weight: 'moderate',
  says,
});

function foreignSays({ judged, of }: ForeignGroup, name: string): string {
  const from = of.length === 0 ? '' : ` It can be of ${of.join(' or ')}.`;
  return `${aGroup(judged.group, true)} is seen${placeOf(judged)}, which ${name} does not have.${from}`;
}

const placeOf = ({ evidence: [first] }: GroupJudgement): string =>
  first === undefined ? '' : ` at ${at(first.position_percm)}`;

const waterSays = (bands: readonly BandEvidence[]): string =>
  `The spectrum is that of water: ${bands.map((one) => at(one.position_percm)).join(', ')}.`;

const listOf = (bands: readonly BandJudgement[]): string =>
  bands
    .map((one) => one.what + (one.evidence ? ` ${at(one.evidence.position_percm)}` : ''))
    .join('; ');

/**
 * What of a foreign group is to be said of the starting material where no share could be estimated:
 * a broad O–H has no clear height.
 */
export function remainsOf(parts: Parts, question: InfraredQuestion): Statement[] {
  if (parts.residual?.kind === 'measured' || parts.residual?.kind === 'itself') return [];
  const names = question.startingMaterials.map(({ name }) => name);
  return foreignGroups(parts, question).flatMap(({ judged, of }) => {
    const theirs = of.filter((name) => names.includes(name));
    const others = of.filter((name) => !names.includes(name));
    if (theirs.length === 0) return [];
    const whose = [...theirs, ...others].join(' or ');
    return [
      {
        id: `infrared-remains-${judged.group}`,
        technique: 'infrared' as const,
        about: 'startingMaterial' as const,
        substance: theirs[0]!,
        what: `${GROUP_WORDS[judged.group]} of the starting material`,
        measured: judged.evidence[0] ? at(judged.evidence[0].position_percm) : 'seen',
        expected: 'no band',
        agreement: others.length > 0 ? ('cannotTell' as const) : ('disagrees' as const),
        weight: 'weak' as const,
        says: `${aGroup(judged.group, true)} is seen${placeOf(judged)} that the product has not. It can be of ${whose}.`,
        limits: judged.limits,
      },
    ];
  });
}
