import type { Amount, AnyAmount } from '../../quantity/amount.ts';
import { readAmount } from '../../quantity/amount.ts';
import { formatAmount } from '../../quantity/print.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import { readExperiment } from '../read.ts';
import { isQuantity } from '../sentence/material-draft.ts';
import type { Experiment, MaterialUse } from '../step.ts';
import { refuse, replace } from './change.ts';
import type { Edit, TextChange } from './change.ts';
import { placesOfAmounts } from './places.ts';
import type { PlacedAmount } from './places.ts';

/**
 * Writes another amount for one use of a material ("3.1") in its place: "1.20 g", "3 × 15 mL". The
 * amount of the same kind is replaced, or else the one that is believed; what else the sentence
 * says of how much ("10.0 mmol") follows in proportion. The rest of the text stays as it is; an
 * edit after which a sentence would read differently is refused.
 */
export function changeAmount(
  text: string,
  experiment: Experiment,
  useId: string,
  written: string,
): Edit {
  const use = usesOf(experiment).find((each) => each.id === useId);
  if (use === undefined) return refuse('This material is no longer in the text.');
  const wanted = readAmount(written);
  if (wanted.kind === 'refused')
    return refuse(`${sentenceStart(wanted.message)}.`, `${sentenceStart(wanted.hint)}.`);
  if (!isQuantity(wanted))
    return refuse(
      'This does not say how much is taken.',
      'Write a mass, a volume, an amount in mmol, or equivalents.',
    );
  const edit = use.amounts.length === 0 ? added(text, use, wanted) : replaced(text, use, wanted);
  return edit.ok ? verified(edit, experiment, useId, wanted) : edit;
}

function usesOf({ steps }: Experiment): MaterialUse[] {
  return steps.flatMap((step) => step.slots.materials ?? []);
}

/** A plain blank, and the decimal point: a comma would part the amounts of a bracket. */
function asText(amount: AnyAmount): string {
  return formatAmount(amount, { space: ' ' });
}

/** Behind the name and the marks that set it off, where no amount is written yet. */
function added(text: string, { span }: MaterialUse, wanted: AnyAmount): Edit {
  const name = span.end + bomOf(text);
  const end = name + (/^(?:\*\*|[`_])*/.exec(text.slice(name, name + 8))?.[0].length ?? 0);
  return replace(text, end, end, ` ${asText(wanted)}`);
}

function replaced(text: string, use: MaterialUse, wanted: AnyAmount): Edit {
  const places = placesOfAmounts(text, use, bomOf(text));
  if (places === undefined)
    return refuse(`The amount of ${use.name} is not plain to find.`, 'Change it in the sentence.');
  const main = mainOf(places, wanted);
  const ratio = ratioOf(main.amount, wanted, use);
  const changes: TextChange[] = [];
  for (const place of places) {
    const { from, to, amount } = place;
    if (place === main) changes.push({ from, to, insert: asText(wanted) });
    else if (ratio === undefined)
      return refuse(
        `${use.name} is written as ${places.map((each) => each.amount.text).join(', ')}; these cannot be worked out from “${asText(wanted)}”.`,
        `Write it in the unit of one of them, or change the sentence.`,
      );
    else changes.push({ from, to, insert: scaled(amount, ratio) });
  }
  return joined(text, changes);
}

/** Of the same kind, or else the one that is believed: mass, volume, moles, the rest. */
function mainOf(places: readonly PlacedAmount[], wanted: AnyAmount): PlacedAmount {
  const order = ['mass', 'volume', 'amount'];
  const rank = ({ amount }: PlacedAmount) => {
    const at = order.indexOf(amount.kind);
    return at < 0 ? order.length : at;
  };
  const same = places.find(({ amount }) => amount.kind === wanted.kind);
  return same ?? [...places].sort((a, b) => rank(a) - rank(b))[0]!;
}

/** How much more is taken than before; undefined where that cannot be told. */
function ratioOf(before: AnyAmount, wanted: AnyAmount, use: MaterialUse): number | undefined {
  if (before.kind === 'unquantified' || wanted.kind === 'unquantified') return undefined;
  const density = use.material?.density_g_mL;
  const factor =
    before.kind === wanted.kind
      ? 1
      : density === undefined
        ? undefined
        : before.kind === 'mass' && wanted.kind === 'volume'
          ? density
          : before.kind === 'volume' && wanted.kind === 'mass'
            ? 1 / density
            : undefined;
  const ratio =
    factor === undefined ? undefined : (middle(wanted) * factor) / (middle(before) || Number.NaN);
  return ratio !== undefined && Number.isFinite(ratio) && ratio > 0 ? ratio : undefined;
}

function middle({ value, high, repeat }: Amount): number {
  return ((value + (high ?? value)) / 2) * (repeat ?? 1);
}

/** "1.0 equiv" is what the others are counted on, and stays. */
function scaled(amount: AnyAmount, ratio: number): string {
  if (amount.kind === 'unquantified' || (amount.kind === 'equivalents' && amount.value === 1))
    return amount.text;
  const { high, ...rest } = amount;
  return asText({
    ...rest,
    value: amount.value * ratio,
    ...(high === undefined ? {} : { high: high * ratio }),
  });
}

/** Several small replacements as one stretch. */
function joined(text: string, changes: readonly TextChange[]): Edit {
  const inOrder = [...changes].sort((a, b) => a.from - b.from);
  const from = inOrder[0]!.from;
  const to = inOrder.at(-1)!.to;
  let insert = '';
  let at = from;
  for (const change of inOrder) {
    insert += text.slice(at, change.from) + change.insert;
    at = change.to;
  }
  return replace(text, from, to, insert);
}

/** The reader counts from behind a byte-order mark. */
function bomOf(text: string): number {
  return text.startsWith('\uFEFF') ? 1 : 0;
}

/** The text is read once more: the same sentences with the same materials, and the amount as wished. */
function verified(
  edit: Extract<Edit, { ok: true }>,
  before: Experiment,
  useId: string,
  wanted: AnyAmount,
): Edit {
  const after = readExperiment(edit.text);
  const use = usesOf(after).find((each) => each.id === useId);
  const there = use?.amounts.some((amount) => same(amount, wanted)) ?? false;
  if (there && skeleton(after) === skeleton(before)) return edit;
  return refuse(
    `With “${asText(wanted)}” the sentence would be read in another way.`,
    'Change it in the sentence itself.',
  );
}

function same(amount: AnyAmount, wanted: AnyAmount): boolean {
  if (amount.kind === 'unquantified' || wanted.kind === 'unquantified')
    return amount.kind === wanted.kind && amount.text.length > 0;
  return (
    amount.kind === wanted.kind &&
    Math.abs(amount.value - wanted.value) <= 1e-9 * Math.abs(wanted.value) &&
    (amount.repeat ?? 1) === (wanted.repeat ?? 1)
  );
}

/** What has to stay: the sentences, their verbs and the names of what they take. */
function skeleton({ steps }: Experiment): string {
  return JSON.stringify(
    steps.map(({ id, verb, slots }) => [
      id,
      verb,
      (slots.materials ?? []).map((use) => [use.id, use.name, use.material?.substance.id]),
    ]),
  );
}
