import { sentenceStart } from '../../quantity/sentence.ts';
import { formatQuantity } from '../../quantity/print.ts';
import { aboutHowLong } from '../answer/duration.ts';
import { grams, millimoles } from '../common/words.ts';
import { signed } from './amounts.ts';
import type { Side } from './side.ts';

export type ConsequenceKind = 'theory' | 'limiting' | 'duration' | 'gas' | 'finding';

/** What follows from the changes, as numbers and as a sentence. */
export interface Consequence {
  readonly kind: ConsequenceKind;
  /** The product, the reaction, the gas. */
  readonly of: string;
  readonly before: string | null;
  readonly after: string | null;
  readonly before_value: number | null;
  readonly after_value: number | null;
  /** Of the values: g, min, L. */
  readonly unit: string | null;
  readonly sentence: string;
}

export function consequencesOf(before: Side, after: Side): Consequence[] {
  return [
    ...theories(before, after),
    ...limits(before, after),
    ...gases(before, after),
    ...durations(before, after),
    ...findings(before, after),
  ];
}

const same = (a: number | undefined, b: number | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b)));

function share(before: number, after: number): string {
  const percent = before > 0 ? 100 * (after / before - 1) : Number.NaN;
  return Number.isFinite(percent) && Math.abs(percent) >= 0.05 ? ` (${signed(percent)})` : '';
}

function theories(before: Side, after: Side): Consequence[] {
  const of = ({ theory }: Side) =>
    new Map(
      theory.products.filter(({ role }) => role === 'product').map((each) => [each.name, each]),
    );
  const [a, b] = [of(before), of(after)];
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((name): Consequence[] => {
    const [was, is] = [a.get(name), b.get(name)];
    const byMass = was?.mass_g !== null && is?.mass_g !== null;
    const value = (each: typeof was) =>
      each === undefined ? undefined : byMass ? each.mass_g! : each.amount_mmol;
    const [x, y] = [value(was), value(is)];
    if (same(x, y)) return [];
    const text = (v: number | undefined) =>
      v === undefined ? null : byMass ? grams(v) : millimoles(v);
    const sentence =
      x === undefined
        ? `Makes ${name} now, at most ${text(y)}.`
        : y === undefined
          ? `No longer makes ${name} (before: at most ${text(x)}).`
          : `Theory of ${name}: ${text(x)} → ${text(y)}${share(x, y)}.`;
    return [made('theory', name, text(x), text(y), x, y, byMass ? 'g' : 'mmol', sentence)];
  });
}

function made(
  kind: ConsequenceKind,
  of: string,
  before: string | null,
  after: string | null,
  before_value: number | undefined,
  after_value: number | undefined,
  unit: string | null,
  sentence: string,
): Consequence {
  return {
    kind,
    of,
    before,
    after,
    before_value: before_value ?? null,
    after_value: after_value ?? null,
    unit,
    sentence,
  };
}

/** Of reactions that both have, by their name. */
function limits(before: Side, after: Side): Consequence[] {
  return before.theory.reactions.flatMap((old): Consequence[] => {
    const now = after.theory.reactions.find((each) => each.reaction === old.reaction);
    const was = old.limiting?.name;
    const is = now?.limiting?.name;
    if (now === undefined || was === is) return [];
    const sentence =
      was === undefined
        ? `${is} limits now.`
        : is === undefined
          ? `${was} no longer limits; nothing does.`
          : `${is} limits now; before, ${was} did.`;
    const before_ = was ?? null;
    return [
      made(
        'limiting',
        old.reaction,
        before_,
        is ?? null,
        undefined,
        undefined,
        null,
        sentenceStart(sentence),
      ),
    ];
  });
}

function gases(before: Side, after: Side): Consequence[] {
  const of = ({ answer }: Side) => new Map(answer.gases.map((gas) => [gas.name, gas.volume_L]));
  const [a, b] = [of(before), of(after)];
  const text = (volume_L: number | undefined) =>
    volume_L === undefined ? null : formatQuantity(volume_L * 1000, 'volume', 2);
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((name): Consequence[] => {
    const [x, y] = [a.get(name), b.get(name)];
    if (same(x, y)) return [];
    const sentence =
      x === undefined
        ? `Gives off ${text(y)} of ${name}, which it did not before.`
        : y === undefined
          ? `No longer gives off ${name} (before: ${text(x)}).`
          : `Gas given off, ${name}: ${text(x)} → ${text(y)}${share(x, y)}.`;
    return [made('gas', name, text(x), text(y), x, y, 'L', sentence)];
  });
}

const LEAST_min = 1;

function durations(before: Side, after: Side): Consequence[] {
  const x = before.answer.duration_min;
  const y = after.answer.duration_min;
  if (Math.abs(x - y) < LEAST_min) return [];
  const [was, is] = [aboutHowLong(x), aboutHowLong(y)];
  const less = y < x ? 'less' : 'more';
  const sentence =
    was === is
      ? `Takes ${formatQuantity(Math.abs(y - x), 'time', 3)} ${less}.`
      : `Takes ${is} (before: ${was}).`;
  return [made('duration', 'the procedure', was, is, x, y, 'min', sentence)];
}

/** With another number in it a remark is still the same remark. */
const withoutNumbers = (message: string) => message.replace(/\d+(?:[.,]\d+)*/g, '#');

/** Those of `some` that have no partner among `others`, one for one. */
function unpaired(some: readonly string[], others: readonly string[]): string[] {
  const left = others.map(withoutNumbers);
  return some.filter((message) => {
    const partner = left.indexOf(withoutNumbers(message));
    if (partner >= 0) left.splice(partner, 1);
    return partner < 0;
  });
}

/** Errors and warnings that came or went; where they stand does not count. */
function findings(before: Side, after: Side): Consequence[] {
  const of = ({ said }: Side) => new Set(said.map(({ message }) => message));
  const [a, b] = [of(before), of(after)];
  const changed = [
    [...b].filter((message) => !a.has(message)),
    [...a].filter((message) => !b.has(message)),
  ] as const;
  const come = unpaired(changed[0], changed[1]);
  const gone = unpaired(changed[1], changed[0]);
  return [
    ...come.map((text) =>
      made('finding', text, null, text, undefined, undefined, null, `New remark: ${text}`),
    ),
    ...gone.map((text) =>
      made('finding', text, text, null, undefined, undefined, null, `Settled: ${text}`),
    ),
  ];
}
