import type { Basis } from '../../core/ledger/posting.ts';
import type { FlowEnd, FlowPassage, FlowRow } from '../../core/report/flow/flow.ts';
import { keepAmounts } from '../text/measure.ts';
import { chargeKey, gathered, sumText } from './words.ts';
import type { FlowWords } from './words.ts';

/** A passage in the words of the sheet. */
export interface Arrow {
  /** A vessel, or undefined: from the stock. */
  readonly from?: string;
  /** A vessel, or undefined: it leaves. */
  readonly to?: string;
  readonly name: string;
  readonly amount: string;
  /** Where it leaves to, where the name does not say so. */
  readonly whither: string;
  readonly basis: Basis;
  readonly gas: boolean;
}

export function arrowsOf(
  row: FlowRow,
  vessels: ReadonlyMap<string, number>,
  words: FlowWords | undefined,
): Arrow[] {
  return gathered(row.passages).flatMap((group) => arrowOf(group, row.step, vessels, words));
}

function arrowOf(
  group: readonly FlowPassage[],
  step: string,
  vessels: ReadonlyMap<string, number>,
  words: FlowWords | undefined,
): Arrow[] {
  const { from, to, label, basis } = group[0]!;
  const source = vesselOf(from, vessels);
  const goal = vesselOf(to, vessels);
  if ((source === undefined && goal === undefined) || source === goal) return [];
  const told = source === undefined ? words?.charges.get(chargeKey(step, label)) : undefined;
  const place = goal === undefined ? placeName(to) : '';
  const named = place !== '' && (label === 'contents' || place.includes(label));
  return [
    {
      ...(source !== undefined && { from: source }),
      ...(goal !== undefined && { to: goal }),
      name: keepAmounts(named ? place : label),
      amount: (told?.text ?? timesText(group)).replace('\u00a0·\u00a0', ' · '),
      whither: named || place === '' ? '' : `to ${place}`,
      basis: told !== undefined && told.basis !== 'measured' ? 'planned' : basis,
      gas: group.every((passage) => passage.gas),
    },
  ];
}

/** "3 × 10 mL" where each is as much as the other. */
function timesText(group: readonly FlowPassage[]): string {
  const [first] = group;
  const same = group.every(({ amount }) => amount === first!.amount);
  return same && group.length > 1 && first!.from.kind === 'stock'
    ? `${group.length}\u00a0×\u00a0${first!.amount}`
    : sumText(group);
}

function vesselOf(end: FlowEnd, vessels: ReadonlyMap<string, number>): string | undefined {
  const name = end.kind === 'vessel' ? end.vessel : end.name;
  return (end.kind === 'vessel' || end.kind === 'other') && vessels.has(name) ? name : undefined;
}

type PlaceOf = (name: string) => string;

const PLACES: Readonly<Record<FlowEnd['kind'], PlaceOf>> = {
  air: () => 'the air',
  waste: (name) => (/\b(waste|recovered)\b/.test(name) ? name : `${name} waste`.trim()),
  stock: () => 'the stock',
  vessel: () => '',
  other: (name) => (name.split('/')[0] ?? '').replace(/^loss$/, 'losses'),
};

const placeName = (end: FlowEnd) => PLACES[end.kind](end.kind === 'vessel' ? '' : end.name);
