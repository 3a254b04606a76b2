import type { AnyAmount } from '../quantity/amount.ts';
import { formatAmount } from '../quantity/print.ts';
import { MANNERS } from './sentence/manner.ts';
import type { BathKind, MaterialUse, Ref, Slots } from './step.ts';
import type { Verb, Wording } from './verbs/verb.ts';

const SPACE = { space: ' ' } as const;

/** A bath as a sentence names it, where nothing tells more of it. */
const BATH_WORDS: Readonly<Record<BathKind, string>> = {
  ice: 'in ice',
  'ice-salt': 'in an ice-salt bath',
  'dry-ice': 'in dry ice',
  water: 'in a water bath',
  oil: 'in an oil bath',
  sand: 'in a sand bath',
  steam: 'on a steam bath',
  block: 'on a hotplate',
  mantle: 'in a heating mantle',
  flame: 'a flame',
  air: 'in the oven',
};

/** A bath with the temperature that its own words are taken to say (common practice). */
const WARMTH_WORDS: Readonly<Record<string, string>> = {
  'water 100': 'in a boiling water bath',
  'water 80': 'in a hot water bath',
  'water 45': 'in a warm water bath',
  'water 15': 'in a cold water bath',
  'oil 80': 'in a hot oil bath',
  'steam 80': 'in a hot steam bath',
};

const FRACTION_WORDS: readonly (readonly [number, string])[] = [
  [1 / 2, 'half of'],
  [1 / 3, 'a third of'],
  [2 / 3, 'two thirds of'],
  [1 / 4, 'a quarter of'],
  [3 / 4, 'three quarters of'],
  [1 / 10, 'a tenth of'],
  [1 / 5, 'a fifth of'],
  [0.9, 'most of'],
];

function vesselText(id: string): string {
  return `the ${id}`;
}

function refText({ vessel, portion }: Ref): string {
  const whole = vesselText(vessel);
  switch (portion.kind) {
    case 'all':
      return whole;
    case 'fraction': {
      const near = FRACTION_WORDS.find(([value]) => Math.abs(value - portion.fraction) < 1e-9);
      return near ? `${near[1]} ${whole}` : whole;
    }
    case 'amount':
      return `${formatAmount(portion.amount, SPACE)} of ${whole}`;
    case 'phase': {
      const { phase } = portion;
      const noun = phase === 'solid' || phase === 'liquid' ? phase : `${phase} layer`;
      return `the ${noun} in ${whole}`;
    }
  }
}

function materialText(use: MaterialUse): string {
  const { material } = use;
  const told = use.amounts.some(
    (amount) => amount.kind !== 'unquantified' && amount.repeat !== undefined,
  );
  const facts = use.amounts.map((amount, i) => {
    const text = formatAmount(amount, SPACE);
    return i === 0 && use.repeat > 1 && !told ? `${use.repeat} × ${text}` : text;
  });
  if (material?.densitySource === 'as given' && material.density_g_mL !== undefined)
    facts.push(`d ${material.density_g_mL}`);
  if (material?.purity_percent !== undefined && !/\d\s*%/.test(use.name))
    facts.push(`${material.purity_percent} % pure`);
  return facts.length === 0 ? use.name : `${use.name} (${facts.join(', ')})`;
}

function listText(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

function untilText(amount: AnyAmount): string {
  const text = formatAmount(amount, SPACE);
  if (/^(?:until|till|to)\b/i.test(text)) return text;
  return amount.kind === 'unquantified' && amount.sense === 'constantMass'
    ? 'to constant mass'
    : `until ${text}`;
}

function bathText(bath: BathKind, temperature: Slots['temperature']): string {
  const usual = temperature?.assumed === undefined ? undefined : `${bath} ${temperature.value}`;
  return (usual === undefined ? undefined : WARMTH_WORDS[usual]) ?? BATH_WORDS[bath];
}

/** Temperatures that a bath's own words say again when they are read. */
function isImplied(slots: Pick<Slots, 'bath' | 'temperature'>): boolean {
  return slots.bath !== undefined && /\btaken as\b.*°C/.test(slots.temperature?.assumed ?? '');
}

/** The phrase that a verb reads as this manner; the verb's own phrases come before the common ones. */
function phraseOf(manner: string, verb: Verb): string {
  const own = verb.manners ?? {};
  if (own[manner] === manner || (own[manner] === undefined && MANNERS[manner] === manner))
    return manner;
  const mine = Object.entries(own).find(([, value]) => value === manner);
  if (mine) return mine[0];
  const common = Object.entries(MANNERS).find(
    ([phrase, value]) => value === manner && own[phrase] === undefined,
  );
  return common?.[0] ?? manner;
}

function tailText(slots: Slots, verb: Verb): string {
  const { over, temperature, bath, time, until, portions, manner } = slots;
  const said = manner.filter((word) => word !== 'in portions' || portions === undefined);
  const parts = [
    ...(portions === undefined ? [] : [`in ${portions} portions`]),
    ...said.map((word) => phraseOf(word, verb)),
    ...(over ? [`over ${formatAmount(over, SPACE)}`] : []),
    ...(bath ? [bathText(bath, temperature)] : []),
    ...(temperature && !isImplied(slots) ? [`at ${formatAmount(temperature, SPACE)}`] : []),
    ...(time ? [timeText(time)] : []),
    ...(until ? [untilText(until)] : []),
  ];
  return parts.map((part) => ` ${part}`).join('');
}

function timeText(time: AnyAmount): string {
  const text = formatAmount(time, SPACE);
  return /^overnight$/i.test(text) ? text : `for ${text}`;
}

/** How the sentences of one verb are put into words. */
export function wordingFor(verb: Verb): Wording {
  return {
    vessel: vesselText,
    ref: refText,
    materials: (uses, also = []) => listText([...uses.map(materialText), ...also.map(refText)]),
    amount: (amount) => formatAmount(amount, SPACE),
    tail: (slots) => tailText(slots, verb),
  };
}
