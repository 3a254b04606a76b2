import table from '../../../facts/ir-contaminants.json' with { type: 'json' };
import { rowsOf } from '../../../facts/table.ts';
import type { TraceContext } from './context.ts';
import { at, evidenceOf } from './evidence.ts';
import { chanceOfAny } from './expected.ts';
import type { BandEvidence, Verdict } from './group-judgement.ts';
import { capital } from './group-words.ts';
import { whatHides } from './hiding.ts';
import type { Maximum } from './maxima.ts';
import { heightAt, leastShare, maximaWithin, tallestOf } from './maxima.ts';
import { moved } from './weigh.ts';

interface Mark {
  readonly position_percm: number;
  readonly tolerance_percm: number;
  /** Height beside the tallest band of the contaminant. */
  readonly share: number;
}

export interface Contaminant {
  readonly id: string;
  readonly name: string;
  readonly smiles: string;
  readonly needed: readonly Mark[];
  readonly also: readonly Mark[];
  readonly when: string;
  readonly note: string;
  readonly source: string;
}

const ATR_LOWER_PERCM = 12;

const SHARES: Readonly<Record<string, number>> = { vs: 1, s: 0.6, m: 0.25, w: 0.08 };

/** "1714:8:vs 1362:6:s" */
function marksIn(text: string): Mark[] {
  return text
    .split(' ')
    .filter((part) => part !== '')
    .map((part) => {
      const [position = '', tolerance = '', intensity = ''] = part.split(':');
      return {
        position_percm: Number(position),
        tolerance_percm: Number(tolerance),
        share: SHARES[intensity] ?? 0.25,
      };
    });
}

const CONTAMINANTS: readonly Contaminant[] = rowsOf(table).map((row) => ({
  id: row['id']!,
  name: row['name']!,
  smiles: row['smiles']!,
  needed: marksIn(row['needed']!),
  also: marksIn(row['also']!),
  when: row['when']!,
  note: row['note']!,
  source: row['source']!,
}));

export interface ContaminantJudgement {
  readonly id: string;
  readonly name: string;
  /** `present`: likely there; infrared never proves it. */
  readonly verdict: Verdict;
  readonly probability: number;
  readonly evidence: readonly BandEvidence[];
  readonly reasons: readonly string[];
  readonly note: string;
  /** Did the person use it? */
  readonly used: boolean;
}

/** A window of the sample's own bands, and how tall they are there: a mark in it proves less. */
export interface OwnWindow {
  readonly low_percm: number;
  readonly high_percm: number;
  readonly mostShare: number;
}

/** The most that a band of each intensity usually reaches beside the tallest. Common practice. */
export const MOST_SHARE: Readonly<Record<'vs' | 's' | 'm' | 'w' | 'v', number>> = {
  vs: 1,
  s: 1,
  m: 0.5,
  w: 0.2,
  v: 1,
};

export type OwnWindows = readonly OwnWindow[];

interface Looked {
  /** Ids, names or structures of what was used. */
  readonly used: readonly string[];
  readonly sample: readonly string[];
  /** Bands of what went in: a rest of it explains them before anything that nobody used. */
  readonly wentIn?: OwnWindows;
}

/** In the beam and not in the sample: the quality of the measurement speaks of them. */
const OF_THE_AIR: ReadonlySet<string> = new Set(['carbon-dioxide', 'water-vapour']);

/**
 * What else may be in the sample. Looked for: everything that was used, and what turns up unasked
 * (water, grease, plasticiser). A solvent that nobody used is not guessed at. `sampleNames` are
 * ids or names of the sample's own substances, which are no contaminants of themselves.
 */
export function judgeContaminants(
  context: TraceContext,
  own: OwnWindows,
  { used, sample, wentIn = [] }: Looked,
): readonly ContaminantJudgement[] {
  return CONTAMINANTS.filter(
    ({ id, when }) => plausible(when, context) && !OF_THE_AIR.has(id),
  ).flatMap((one) => {
    if (isAmong(one, sample)) return [];
    const wasUsed = isAmong(one, used);
    if (one.when === 'used' && !wasUsed) return [];
    const found = judgedOne(context, wasUsed ? own : [...own, ...wentIn], one, wasUsed);
    const judged = isTelling(found, own) ? found : untold(found);
    return judged.verdict === 'present' || wasUsed || judged.probability > 0.5 ? [judged] : [];
  });
}

/** Where nearly every sample, or every one with an oxygen, has bands: C–H and C–O stretches. */
const CROWDED_PERCM = [
  [2840, 3000],
  [1000, 1170],
] as const;

/** Whether at least one of its bands stands where the product and most samples have none. */
function isTelling({ evidence, verdict }: ContaminantJudgement, own: OwnWindows): boolean {
  if (verdict !== 'present') return true;
  return evidence.some(
    ({ position_percm: at, share }) =>
      !CROWDED_PERCM.some(([low, high]) => low < at && at < high) &&
      !own.some((one) => one.low_percm < at && at < one.high_percm && one.mostShare >= share),
  );
}

function untold(judged: ContaminantJudgement): ContaminantJudgement {
  return {
    ...judged,
    verdict: 'cannotTell',
    probability: Math.min(judged.probability, 0.5),
    reasons: [...judged.reasons, 'Each of them may be of the product or of what it was made from.'],
  };
}

function plausible(when: string, { state }: TraceContext): boolean {
  return when === 'always' || when === 'used' || when === state;
}

function isAmong({ name, smiles, id }: Contaminant, words: readonly string[]): boolean {
  return words.some((word) => word !== '' && (word === smiles || word === name || word === id));
}

interface Sighting {
  readonly mark: Mark;
  readonly band: Maximum | undefined;
  readonly chance: number;
  readonly hidden: boolean;
}

function judgedOne(
  context: TraceContext,
  own: OwnWindows,
  one: Contaminant,
  used: boolean,
): ContaminantJudgement {
  const sightings = one.needed.map((mark) => sightingOf(context, own, mark));
  const plain = sightings.filter(({ hidden }) => !hidden);
  const seen = plain.filter(({ band }) => band !== undefined);
  const prior = used ? 0.3 : one.when === 'always' ? 0.08 : 0.5;
  const scale = scaleOf(context, seen);
  // Where the curve is high enough without a maximum, a neighbour covers the mark: no word on it.
  const open = plain.filter(
    ({ band, mark }) => band !== undefined || !isCovered(context, mark, scale),
  );
  const probability = open.reduce((so, { band, chance, mark }) => {
    // A mark of a trace of it can sink into the noise: the strong ones then decide.
    const visible = mark.share * scale > 2 * leastShare(context.view) ? 0.93 : 0.5;
    // Other bands stand there as often whether it is in the sample or not.
    return moved(so, band === undefined ? 1 - visible : 1 + (visible * (1 - chance)) / chance);
  }, prior);
  const fits = seen.length === open.length && open.length > 0 && fitting(context, seen);
  const capped = Math.min(0.95, fits ? probability : Math.min(probability, 0.4));
  const verdict: Verdict =
    open.length < Math.min(2, one.needed.length)
      ? 'cannotTell'
      : capped > 0.7
        ? 'present'
        : seen.length === 0 || capped < 0.08
          ? 'absent'
          : 'cannotTell';
  return {
    id: one.id,
    name: one.name,
    verdict,
    probability: capped,
    evidence: seen.map(({ band }) => evidenceOf(context, one.name, band!)),
    reasons: [reasonOf(one.name, open, fits)],
    note: one.note,
    used,
  };
}

function sightingOf(context: TraceContext, own: OwnWindows, mark: Mark): Sighting {
  const reach = mark.tolerance_percm + context.view.positionU_percm;
  // A recorded ATR maximum of a strong band lies lower.
  const lower = context.state === 'atr' && mark.share >= 0.5 ? ATR_LOWER_PERCM : 0;
  const [low, high] = [mark.position_percm - reach - lower, mark.position_percm + reach];
  const least = Math.max(0.015, leastShare(context.view));
  const inside = maximaWithin(context.maxima, low, high).filter(
    ({ prominence }) => prominence > least * context.view.tallest,
  );
  const band = tallestOf(inside);
  const seenShare = (band?.prominence ?? 0) / context.view.tallest;
  const overlapped = own.some(
    (one) =>
      one.low_percm < mark.position_percm &&
      one.high_percm > mark.position_percm &&
      one.mostShare >= seenShare,
  );
  const byChance = chanceOfAny(context, low, high, 0.02);
  return {
    mark,
    band,
    // A tall band that the structure has no window for is seldom one of its own.
    chance: overlapped ? Math.max(0.75, byChance) : own.length > 0 ? 0.6 * byChance : byChance,
    hidden: whatHides(context, low, high) !== undefined,
  };
}

function isCovered(context: TraceContext, mark: Mark, scale: number): boolean {
  const height = heightAt(context.view, mark.position_percm) / context.view.tallest;
  return height > 0.4 * mark.share * scale && height > 0.03;
}

/** Height of its tallest band in this trace, beside the tallest of the trace. */
function scaleOf({ view }: TraceContext, seen: readonly Sighting[]): number {
  const ratios = seen.map(({ band, mark }) => band!.height / view.tallest / mark.share);
  return ratios.length === 0 ? 0.05 : Math.min(...ratios);
}

/** Do the heights stand to each other as they should, within a factor of five? */
function fitting({ view }: TraceContext, seen: readonly Sighting[]): boolean {
  const strong = seen.filter(({ mark }) => mark.share >= 0.25);
  const ratios = strong.map(({ band, mark }) => band!.prominence / view.tallest / mark.share);
  return ratios.length === 0 || Math.max(...ratios) / Math.min(...ratios) < 8;
}

function reasonOf(name: string, sightings: readonly Sighting[], fits: boolean): string {
  const places = (some: readonly Sighting[]) =>
    some.map(({ mark }) => Math.round(mark.position_percm)).join(', ');
  const missing = sightings.filter(({ band, hidden }) => band === undefined && !hidden);
  if (missing.length > 0)
    return `${capital(name)} should also show ${places(missing)} cm⁻¹; there is nothing.`;
  const seen = sightings.filter(({ band }) => band !== undefined);
  if (seen.length === 0) return 'Its bands cannot be looked for here.';
  const list = seen.map(({ band }) => at(band!.position_percm)).join(', ');
  return fits
    ? `All its bands are here: ${list}.`
    : `Bands stand at its places (${list}), but their heights do not go together.`;
}
