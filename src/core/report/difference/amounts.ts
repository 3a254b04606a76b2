import type { MaterialUse } from '../../experiment/step.ts';
import type { AnyAmount } from '../../quantity/amount.ts';
import { formatAmount, formatNumber, THIN_SPACE } from '../../quantity/print.ts';
import { millimoles } from '../common/words.ts';
import type { Side } from './side.ts';
import type { StepChange } from './steps.ts';

/** One material of a sentence, with what is taken of it before and after. */
export interface AmountChange {
  readonly name: string;
  readonly stepBefore: string | null;
  readonly stepAfter: string | null;
  /** As written; null: not taken. */
  readonly before: string | null;
  readonly after: string | null;
  readonly before_mmol: number | null;
  readonly after_mmol: number | null;
  /** Of the mass taken; null where one of them is not known. */
  readonly percent: number | null;
  readonly sentence: string;
}

interface Taken {
  readonly use: MaterialUse;
  readonly step: string;
}

/** `pairs`: the sentences that belong together, changed or not. */
export function amountChanges(
  before: Side,
  after: Side,
  pairs: readonly { readonly before: number; readonly after: number }[],
  steps: readonly StepChange[],
): AmountChange[] {
  const inPairs = pairs.flatMap((pair) =>
    betweenSentences(takenIn(before, [pair.before]), takenIn(after, [pair.after]), before, after),
  );
  const gone = steps.flatMap((step) => (step.kind === 'removed' ? [step.place] : []));
  const come = steps.flatMap((step) => (step.kind === 'added' ? [step.place] : []));
  return [
    ...inPairs,
    ...takenIn(before, gone).map((taken) => changeOf(taken, undefined, before, after)),
    ...takenIn(after, come).map((taken) => changeOf(undefined, taken, before, after)),
  ];
}

function takenIn({ sentences }: Side, places: readonly number[]): Taken[] {
  return places.flatMap((place) =>
    sentences[place]!.steps.flatMap((step) =>
      (step.slots.materials ?? []).map((use) => ({ use, step: step.id })),
    ),
  );
}

/** By substance or name, each once; then those that are left, in their order. */
function betweenSentences(
  gone: readonly Taken[],
  come: readonly Taken[],
  before: Side,
  after: Side,
): AmountChange[] {
  const rest = [...come];
  const changes: AmountChange[] = [];
  for (const old of gone) {
    const at = rest.findIndex((each) => keyOf(each.use) === keyOf(old.use));
    if (at < 0) {
      changes.push(changeOf(old, undefined, before, after));
      continue;
    }
    const [now] = rest.splice(at, 1);
    if (amountsOf(old.use) !== amountsOf(now!.use)) changes.push(changeOf(old, now, before, after));
  }
  return [...changes, ...rest.map((now) => changeOf(undefined, now, before, after))];
}

/** The material with its strength: 1 M and 2 M acid are two. */
function keyOf({ material, name }: MaterialUse): string {
  return (material?.name ?? name).toLowerCase();
}

/** How much, however it is set. */
function amountsOf({ amounts, repeat }: MaterialUse): string {
  return JSON.stringify([
    repeat,
    amounts.map((amount) =>
      amount.kind === 'unquantified'
        ? amount.word
        : [amount.kind, amount.value, amount.high, amount.repeat, amount.digits],
    ),
  ]);
}

function changeOf(
  old: Taken | undefined,
  now: Taken | undefined,
  before: Side,
  after: Side,
): AmountChange {
  const was = old && before.charges.get(old.use.id);
  const is = now && after.charges.get(now.use.id);
  const change = {
    name: (now ?? old)!.use.name,
    stepBefore: old?.step ?? null,
    stepAfter: now?.step ?? null,
    before: old === undefined ? null : writtenOf(old.use),
    after: now === undefined ? null : writtenOf(now.use),
    before_mmol: was?.amount_mmol ?? null,
    after_mmol: is?.amount_mmol ?? null,
    percent: was && is && was.mass_g > 0 ? 100 * (is.mass_g / was.mass_g - 1) : null,
  };
  return { ...change, sentence: sentenceOf(change) };
}

const RANK: readonly AnyAmount['kind'][] = ['mass', 'volume', 'amount', 'equivalents'];

/** The amount that is believed, as it stands: "0.150 g". */
function writtenOf({ amounts, repeat }: MaterialUse): string {
  const rank = ({ kind }: AnyAmount) => (RANK.includes(kind) ? RANK.indexOf(kind) : RANK.length);
  const [first] = [...amounts].sort((a, b) => rank(a) - rank(b));
  if (first === undefined) return 'no amount';
  const own = first.kind === 'unquantified' ? 1 : (first.repeat ?? 1);
  const text = formatAmount(first);
  return repeat > own ? `${repeat} × ${text}` : text;
}

/** "sodium borohydride, step 3: 0.150 g → 0.180 g (+20 %), 3.96 → 4.76 mmol" */
function sentenceOf(change: Omit<AmountChange, 'sentence'>): string {
  const { name, stepBefore, stepAfter, before, after, percent } = change;
  if (before === null) return `${name}, step ${stepAfter}: ${after}, not taken before`;
  if (after === null) return `${name}, step ${stepBefore}: ${before} → not taken`;
  const step =
    stepBefore === stepAfter ? `step ${stepAfter}` : `step ${stepAfter} (before: ${stepBefore})`;
  const share = percent === null || Math.abs(percent) < 0.05 ? '' : ` (${signed(percent)})`;
  return `${name}, ${step}: ${before} → ${after}${share}${molesOf(change)}`;
}

function molesOf({ before_mmol, after_mmol }: Omit<AmountChange, 'sentence'>): string {
  if (before_mmol === null || after_mmol === null || before_mmol === after_mmol) return '';
  return `, ${formatNumber(before_mmol, 3)} → ${millimoles(after_mmol)}`;
}

/** "+20 %", with a minus where it is less. */
export function signed(percent: number): string {
  const size = formatNumber(Math.abs(percent), Math.abs(percent) >= 100 ? 3 : 2);
  return `${percent < 0 ? '−' : '+'}${size}${THIN_SPACE}%`;
}
