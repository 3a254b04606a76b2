import { readAmountAt } from '../../quantity/amount.ts';
import type { AnyAmount } from '../../quantity/amount.ts';
import { cleanText } from '../sentence/clean.ts';
import type { MaterialUse } from '../step.ts';

/** Where one amount of a use stands in the document. */
export interface PlacedAmount {
  readonly amount: AnyAmount;
  readonly from: number;
  readonly to: number;
}

/**
 * Finds every amount of a use in its phrase; undefined where one is not there word for word.
 * `shift` is what lies before the text that the reader counted from.
 */
export function placesOfAmounts(
  text: string,
  { span, amounts }: MaterialUse,
  shift: number,
): PlacedAmount[] | undefined {
  const clean = cleanText(text, span.start + shift, span.end + shift);
  const taken = new Set<number>();
  const places: PlacedAmount[] = [];
  for (const amount of amounts) {
    const at = findAmount(clean.text, amount, taken);
    if (at === undefined) return undefined;
    taken.add(at);
    const last = at + amount.text.length - 1;
    places.push({ amount, from: clean.origin[at]!, to: clean.origin[last]! + 1 });
  }
  return places;
}

function findAmount(
  phrase: string,
  amount: AnyAmount,
  taken: ReadonlySet<number>,
): number | undefined {
  if (amount.text === '') return undefined;
  for (let at = phrase.indexOf(amount.text); at >= 0; at = phrase.indexOf(amount.text, at + 1)) {
    if (taken.has(at)) continue;
    const reading = readAmountAt(phrase, at);
    if (reading.kind === 'amount' && reading.amount.text === amount.text) return at;
  }
  return undefined;
}
