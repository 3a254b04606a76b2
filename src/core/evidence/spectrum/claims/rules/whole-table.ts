import type { IrBand } from '../../judge/bands.ts';
import { holds } from '../../judge/structure-groups.ts';
import { at, shareText } from '../../judge/evidence.ts';
import type { BandEvidence, JudgedGroup } from '../../judge/group-judgement.ts';
import { aGroup } from '../../judge/group-words.ts';
import { whatHides } from '../../judge/hiding.ts';
import type { ClaimFinding } from '../finding.ts';
import type { GroupReading } from '../read-group.ts';
import { plainText, readGroup } from '../read-group.ts';
import type { TableCase } from '../table-case.ts';
import { groupOf, reaches, seenAs, slackOf, startingRows } from '../table-case.ts';
import type { Bond } from '../bond-words.ts';
import type { ReadCase } from './rule.ts';
import { isRead } from './rule.ts';

const FINGERPRINT_PERCM = 1500;
const MOST_BELOW = 4;

/** Below 1500 cm⁻¹ bands of the whole skeleton mix; most assignments there are guesses. */
export function crowdedFingerprint({ claims }: TableCase): ClaimFinding | undefined {
  const below = claims.filter(({ high_percm }) => high_percm < FINGERPRINT_PERCM).length;
  if (below <= MOST_BELOW) return undefined;
  return {
    id: 'crowded-fingerprint',
    weight: 'notes',
    likelihood: Math.min(0.95, 0.65 + 0.06 * (below - MOST_BELOW)),
    says: `${below} of the lines lie below 1500 cm⁻¹, where bands of the whole skeleton mix.`,
    right: 'Keep the few that matter: C–O, NO₂ and how a ring is substituted.',
    evidence: [],
  };
}

const STRONG_SHARE = 0.5;
const MOST_LISTED = 5;

/** Strong bands that no line of the table is near, the strongest first. */
export function strongNotAssigned(table: TableCase): ClaimFinding | undefined {
  const { context, claims } = table;
  if (claims.length === 0) return undefined;
  const { view } = context;
  const left = context.maxima
    .filter(
      ({ position_percm: p, height, prominence }) =>
        height >= STRONG_SHARE * view.tallest &&
        prominence >= 0.5 * height &&
        (p < 2280 || p > 2400) &&
        whatHides(context, p - 5, p + 5) === undefined,
    )
    .filter(
      ({ position_percm: p, width_percm }) =>
        !claims.some(
          ({ low_percm, high_percm }) =>
            p >= low_percm - Math.max(15, width_percm / 2) &&
            p <= high_percm + Math.max(15, width_percm / 2),
        ),
    )
    .sort((a, b) => b.height - a.height)
    .slice(0, MOST_LISTED);
  if (left.length === 0) return undefined;
  const above = left.some(({ position_percm }) => position_percm > FINGERPRINT_PERCM);
  const places = left.map(({ position_percm }) => at(position_percm));
  return {
    id: 'strong-band-not-assigned',
    weight: 'notes',
    likelihood: above ? 0.8 : 0.45,
    says: `Strong bands that the table does not speak of: ${places.join(', ')}.`,
    right: above
      ? 'A strong band above 1500 cm⁻¹ belongs to a group: say which.'
      : 'Below 1500 cm⁻¹ not every band has a name; the strongest are worth a thought.',
    evidence: left.map((band) => seenAs(table, 'not assigned', band)),
  };
}

const GROUP_BONDS: Readonly<Partial<Record<JudgedGroup, readonly (Bond | 'aldehyde')[]>>> = {
  oh: ['o-h'],
  acid: ['o-h', 'c=o'],
  nh: ['n-h'],
  carbonyl: ['c=o'],
  nitrile: ['c#n', 'cn'],
  nitro: ['no2'],
  'alkyne-h': ['c#c-h', 'c#c'],
  'aldehyde-ch': ['aldehyde-ch', 'aldehyde'],
};

function speaksOfGroup(reading: GroupReading, group: JudgedGroup): boolean {
  if (reading.kind !== 'read') return false;
  const wanted: readonly string[] = GROUP_BONDS[group] ?? [];
  const named = [...reading.bonds, ...reading.classes];
  if (named.some((one) => wanted.includes(one))) return true;
  // "the ketone is gone"
  return group === 'carbonyl' && CARBONYLS.some((name) => reading.classes.includes(name))
    ? true
    : group === 'oh' && ['alcohol', 'phenol'].some((name) => reading.classes.includes(name));
}

const CARBONYLS = ['ketone', 'aldehyde', 'ester', 'carboxylic acid', 'amide', 'anhydride'];

/** Sentences of the conclusion, read like lines of the table. */
function sentencesOf({ conclusion }: TableCase): { text: string; reading: GroupReading }[] {
  return conclusion
    .split(/(?<=[.;!?])\s+|\n+/)
    .filter((text) => text.trim() !== '')
    .map((text) => ({ text: plainText(text), reading: readGroup(text) }));
}

/** Is it said anywhere that this group, or the starting material, is no longer there? */
function saysGone(table: TableCase, group: JudgedGroup): boolean {
  const inTable = table.claims.some(
    ({ reading }) =>
      reading.kind === 'read' && reading.said === 'absent' && speaksOfGroup(reading, group),
  );
  return (
    inTable ||
    sentencesOf(table).some(
      ({ reading }) =>
        reading.kind === 'read' &&
        reading.said === 'absent' &&
        (speaksOfGroup(reading, group) || reading.foreign === 'startingMaterial'),
    )
  );
}

/** The reaction takes a group away: the argument needs that it is gone. */
export function changeNotMentioned(table: TableCase): ClaimFinding | undefined {
  const gone = table.judgement.change.filter(({ kind }) => kind === 'gone');
  const unsaid = gone.filter(
    ({ group }) =>
      GROUP_BONDS[group] !== undefined && !saysGone(table, group) && !leftSaid(table, group),
  );
  if (unsaid.length === 0 || unsaid.length < gone.length) return undefined;
  const [first] = unsaid;
  return {
    id: 'change-not-mentioned',
    weight: 'notes',
    likelihood: first!.verdict === 'present' ? 0.75 : 0.6,
    says: `The reaction takes away ${aGroup(first!.group)}. Neither the table nor the conclusion says whether its band is gone.`,
    right: first!.says,
    evidence: groupOf(table, first!.group).evidence,
  };
}

/** Somebody did see that some of the starting group is left. */
function leftSaid(table: TableCase, group: JudgedGroup): boolean {
  return (
    table.claims.some(
      ({ reading }) =>
        reading.kind === 'read' &&
        reading.foreign === 'startingMaterial' &&
        speaksOfGroup(reading, group),
    ) ||
    sentencesOf(table).some(
      ({ reading }) => reading.kind === 'read' && reading.foreign === 'startingMaterial',
    )
  );
}

/** Smaller ones can be overtones of a ring. */
const LEFT_SHARE = 0.08;

/** The tallest band where a C=O of the starting material absorbs, and nothing of the product does. */
function startingCarbonyl(table: TableCase): BandEvidence | undefined {
  const windows = startingRows(table)
    .flat()
    .filter(({ vibration, duty }) => vibration.startsWith('C=O') && duty === 'must');
  const band = table.context.maxima
    .filter(({ position_percm: p, height, prominence }) => {
      const here = { low_percm: p, high_percm: p };
      return (
        height > LEFT_SHARE * table.context.view.tallest &&
        prominence > 0.4 * height &&
        windows.some((row) => reaches(row, here, slackOf(table))) &&
        !table.productRows!.some(
          (row) => reaches(row, here, 0) && row.vibration !== 'Overtones of ring C–H',
        )
      );
    })
    .sort((a, b) => b.height - a.height)[0];
  return band === undefined ? undefined : seenAs(table, 'C=O stretch, left over perhaps', band);
}

/** A band that the product cannot have and the table passes over. */
export function leftOverNotMentioned(table: TableCase): ClaimFinding | undefined {
  const { product } = table;
  if (product === undefined || holds(product, 'carbonyl')) return undefined;
  const judged = groupOf(table, 'carbonyl');
  const start = startingCarbonyl(table);
  const band = start ?? judged.evidence[0];
  const likelihood = Math.max(start === undefined ? 0 : 0.7, judged.probability);
  if (band === undefined || likelihood < 0.4) return undefined;
  const named = table.claims.some(
    ({ low_percm, high_percm }) =>
      low_percm - 15 <= band.position_percm && high_percm + 15 >= band.position_percm,
  );
  const said = sentencesOf(table).some(
    ({ reading }) =>
      reading.kind === 'read' && reading.said === 'present' && speaksOfGroup(reading, 'carbonyl'),
  );
  if (named || said || leftSaid(table, 'carbonyl')) return undefined;
  const fromStart = table.startingMaterials.some((facts) => holds(facts, 'carbonyl'));
  return {
    id: 'left-over-not-mentioned',
    weight: 'doubts',
    likelihood: Math.round(100 * Math.min(0.95, likelihood)) / 100,
    says: `A band at ${at(band.position_percm)}, ${shareText(band.share)}, fits a C=O. The product has none, and the table passes over it.`,
    right: fromStart
      ? 'Some of the starting material may be left.'
      : 'A solvent such as acetone, or a product of oxidation, may be in the sample.',
    evidence: [band],
  };
}

/** Claims that rest on a band and fit a group of the starting material as well. */
function fitsStart(one: ReadCase, rows: readonly IrBand[], table: TableCase): boolean {
  return rows.some(
    (band) => one.reading.bandIds.has(band.id) && reaches(band, one, slackOf(table)),
  );
}

/** A table that the starting material would fill just as well tells nothing of the reaction. */
export function fitsStartingMaterial(table: TableCase): ClaimFinding | undefined {
  const telling = table.claims.filter(
    (one): one is ReadCase =>
      isRead(one) &&
      one.reading.said === 'present' &&
      one.reading.foreign === undefined &&
      one.reading.bandIds.size > 0 &&
      (one.sight.band !== undefined || one.sight.covered),
  );
  const saidGone = table.judgement.change.some(
    ({ kind, group }) => kind === 'gone' && saysGone(table, group),
  );
  if (telling.length === 0 || saidGone) return undefined;
  const all = startingRows(table).some((rows) =>
    telling.every((one) => fitsStart(one, rows, table)),
  );
  if (!all) return undefined;
  const fresh = table.judgement.change.find(({ kind }) => kind === 'new');
  return {
    id: 'fits-starting-material',
    weight: 'notes',
    likelihood: Math.min(0.92, 0.72 + 0.05 * telling.length),
    says: 'Every band of the table fits the starting material as well: the table does not show that anything has changed.',
    right:
      fresh === undefined
        ? 'Name a band that only the product has, or one of the starting material that is gone.'
        : `Only the product has ${aGroup(fresh.group)}: look for it.`,
    evidence: telling.flatMap((one) =>
      one.sight.band === undefined ? [] : [seenAs(table, one.claim.group, one.sight.band)],
    ),
  };
}

export function tooThick({ quality, claims }: TableCase): ClaimFinding | undefined {
  const { saturated } = quality;
  if (saturated.length === 0) return undefined;
  const places = saturated.map(([from, to]) => `${Math.round(from)}–${Math.round(to)}`).join(', ');
  const touched = claims.some(({ sight }) => sight.saturated);
  return {
    id: 'too-thick',
    weight: 'notes',
    likelihood: touched ? 0.85 : 0.7,
    says: `Next to no light came through at ${places} cm⁻¹: the sample was too thick there.`,
    right: 'A thinner film or a more dilute disc shows heights, shapes and exact places.',
    evidence: [],
  };
}

export function tooWeak({ quality }: TableCase): ClaimFinding | undefined {
  if (!quality.tooWeak) return undefined;
  return {
    id: 'too-weak',
    weight: 'notes',
    likelihood: 0.9,
    says: `The tallest band has an absorbance of ${quality.highest.toFixed(3)}: noise, air and baseline count as much as the bands.`,
    right: 'Press the sample down on the crystal, or use more of it, and measure again.',
    evidence: [],
  };
}
