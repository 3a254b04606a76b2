import type { AnyAmount } from '../../quantity/amount.ts';
import type { Move, ReactTrigger, Selector } from '../move.ts';
import type { MaterialUse, Portion, Ref, Slots } from '../step.ts';
import type { Argument, ClauseForm, Context, RawSentence } from './verb.ts';
import { amountOf, figureOf } from './verb.ts';

export const FOR: ClauseForm = {
  words: ['for', 'for about', 'for a further', 'for another'],
  kind: 'time',
  slot: 'time',
};
export const OVER: ClauseForm = {
  words: ['over', 'during', 'over about', 'in the course of', 'over a period of'],
  kind: 'time',
  slot: 'over',
};
export const AT: ClauseForm = {
  words: [
    'at',
    'to',
    'at about',
    'to about',
    'up to',
    'below',
    'keeping the temperature below',
    'keeping the temperature at',
    'keeping the temperature between',
    'keeping the temperature under',
    'holding the temperature at',
    'holding the temperature below',
    'maintaining the temperature at',
    'maintaining the temperature between',
    'not letting the temperature rise above',
    'without letting the temperature rise above',
    'so that the temperature stays below',
    'so that the temperature does not rise above',
    'keeping it below',
    'maintaining the temperature below',
    'maintaining',
    'near',
    'until it reaches',
    'between',
    'the temperature at',
    'the temperature below',
    'the temperature between',
    'the temperature near',
    'the temperature to',
    'the internal temperature at',
    'the internal temperature below',
    'the internal temperature between',
    'the bath temperature at',
    'the bath at',
  ],
  kind: 'temperature',
  slot: 'temperature',
};
export const BATH: ClauseForm = {
  words: ['in', 'on', 'over', 'under', 'with', 'using', 'by means of', 'with the aid of'],
  kind: 'bath',
  slot: 'bath',
};
export const UNTIL: ClauseForm = {
  words: ['until', 'or until', 'till', 'so that', 'to dissolve', 'to give', 'as', 'while'],
  kind: 'until',
  slot: 'until',
};
export const ENDPOINT: ClauseForm = {
  words: ['to', 'until', 'to reach', 'until at'],
  kind: 'endpoint',
  slot: 'until',
};
export const PORTIONS: ClauseForm = { words: ['in'], kind: 'portions', slot: 'portions' };
const BARE_TIME: ClauseForm = { words: [], kind: 'bareTime', slot: 'time' };
/** Everything that says how long, how warm and in what. */
export const CONDITIONS: readonly ClauseForm[] = [FOR, BARE_TIME, OVER, AT, BATH, UNTIL, ENDPOINT];

/** The slots that every verb fills alike. */
export function conditions(
  raw: RawSentence,
): Pick<Slots, 'time' | 'over' | 'temperature' | 'bath' | 'portions' | 'until' | 'manner'> {
  const { arguments: args } = raw;
  const bath = args.bath?.kind === 'bath' ? args.bath : undefined;
  const time = amountOf(args.time);
  const over = amountOf(args.over);
  const until = amountOf(args.until);
  const stated = figureOf(args.temperature) ?? bath?.figure;
  const temperature =
    stated ??
    (bath?.temperature_C === undefined
      ? undefined
      : bathTemperature(bath.temperature_C, bath.assumed));
  const portions = args.portions?.kind === 'portions' ? args.portions.count : undefined;
  const manner = args.portions?.kind === 'portions' ? [...raw.manner, 'in portions'] : raw.manner;
  return {
    ...(time && { time }),
    ...(over && { over }),
    ...(temperature && { temperature }),
    ...(bath && { bath: bath.bath }),
    ...(portions !== undefined && { portions }),
    ...(until && { until }),
    manner: [...new Set(manner)],
  };
}

function bathTemperature(value: number, assumed: string | undefined): Slots['temperature'] {
  return {
    kind: 'temperature',
    value,
    digits: 2,
    unit: '°C',
    text: `${value} °C`,
    ...(assumed !== undefined && { assumed }),
  };
}

/** Minutes of an amount of time; the middle of a range. */
export function minutes(amount: AnyAmount | undefined): number | undefined {
  if (amount?.kind !== 'time') return undefined;
  return amount.high === undefined ? amount.value : (amount.value + amount.high) / 2;
}

export function degrees(slots: Slots): number | undefined {
  const { temperature } = slots;
  if (!temperature) return undefined;
  return temperature.high === undefined
    ? temperature.value
    : (temperature.value + temperature.high) / 2;
}

export function waiting(
  vessel: string,
  slots: Slots,
  heating: 'none' | 'warm' | 'reflux',
  forReaction: boolean,
): Move {
  const time_min = minutes(slots.time) ?? minutes(slots.over);
  const temperature_C = degrees(slots);
  return {
    kind: 'wait',
    vessel,
    ...(time_min !== undefined && { time_min }),
    ...(temperature_C !== undefined && { temperature_C }),
    heating,
    forReaction,
    ...(slots.manner.includes('closed')
      ? { closed: true }
      : slots.manner.includes('opened') || heating === 'reflux'
        ? { closed: false }
        : {}),
  };
}

export function react(vessel: string, trigger: ReactTrigger): Move {
  return { kind: 'react', vessel, trigger };
}

/** Matter from the stock, all its repeats at once. */
export function fromStock(uses: readonly MaterialUse[] | undefined, vessel: string): Move[] {
  return (uses ?? []).map((use): Move => ({
    kind: 'move',
    from: 'stock',
    use,
    to: { kind: 'vessel', vessel },
  }));
}

export function oneTurn(use: MaterialUse, turn: number, vessel: string): Move {
  return { kind: 'move', from: 'stock', use, turn, to: { kind: 'vessel', vessel } };
}

export function selector(portion: Portion): Selector {
  switch (portion.kind) {
    case 'all':
      return { kind: 'all' };
    case 'fraction':
      return { kind: 'fraction', fraction: portion.fraction };
    case 'phase':
      return { kind: 'phase', phase: portion.phase };
    case 'amount':
      return portion.amount.kind === 'mass'
        ? { kind: 'mass', mass_g: portion.amount.value }
        : { kind: 'volume', volume_mL: portion.amount.value };
  }
}

/** Layers are parted before one of them can be taken. */
export function parting(ref: Ref): Move[] {
  if (ref.portion.kind !== 'phase') return [];
  const { phase } = ref.portion;
  return phase === 'solid' || phase === 'liquid'
    ? [{ kind: 'split', vessel: ref.vessel, by: { rule: 'filter', keep: 'both' } }]
    : [{ kind: 'split', vessel: ref.vessel, by: { rule: 'layers' } }];
}

export function pour(ref: Ref, into: string, label?: string): Move[] {
  return [
    ...parting(ref),
    {
      kind: 'move',
      from: 'vessel',
      vessel: ref.vessel,
      take: selector(ref.portion),
      to: { kind: 'vessel', vessel: into },
      ...(label !== undefined && { label }),
    },
  ];
}

export function hasRole(argument: Argument | undefined, ...roles: string[]): boolean {
  return (
    argument?.kind === 'ref' && argument.ref.role !== undefined && roles.includes(argument.ref.role)
  );
}

/** Materials of two lists; those that earlier sentences set aside, placed or made are told apart. */
export function gather(
  context: Context,
  raw: RawSentence,
  options: { readonly excess?: boolean } = {},
): { uses: MaterialUse[]; aside: Ref[] } {
  const uses: MaterialUse[] = [];
  const aside: Ref[] = [];
  for (const argument of [raw.arguments.materials, raw.arguments.with]) {
    if (argument?.kind !== 'materials') continue;
    for (const material of argument.materials) {
      if (material.ref) {
        aside.push(context.ref(material.ref, material.start));
        continue;
      }
      const lies =
        material.amounts.length > 0 || material.name === ''
          ? undefined
          : material.definite
            ? context.lies(material.name)
            : asideRef(context, material.name);
      if (lies) aside.push(lies);
      else uses.push(...context.materials({ kind: 'materials', materials: [material] }, options));
    }
  }
  return { uses, aside };
}

function asideRef(context: Context, name: string): Ref | undefined {
  const vessel = context.aside(name);
  return vessel === undefined ? undefined : { vessel, portion: { kind: 'all' } };
}
