import { keyOf } from './name-key.ts';

/** What the words around a name say of it. Percentages keep what is written: their meaning depends on the substance. */
export type WrittenStrength =
  | { readonly kind: 'molarity' | 'normality'; readonly value: number }
  | {
      readonly kind: 'percent';
      readonly value: number;
      readonly basis?: 'massPercent' | 'volumePercent' | 'massVolumePercent';
      readonly range?: string;
    }
  | { readonly kind: 'saturated' }
  | { readonly kind: 'dilute' }
  | { readonly kind: 'concentrated' };

/** A material name half read: the name that is left, and what was taken off it. */
export interface Words {
  rest: string;
  strength?: WrittenStrength;
  /** Two strengths that cannot both be. */
  clash?: string;
  density_g_mL?: number;
  readonly conditions: string[];
  form?: string;
  solvent?: string;
  aqueous: boolean;
  solution: boolean;
}

const NUMBER = String.raw`(\d+(?:[.,]\d+)?)`;
const RANGE = String.raw`${NUMBER}(?:\s*(?:-|–|to)\s*${NUMBER})?`;
const BASIS = String.raw`(?:\s*\(?(w\/w|m\/m|wt|w\/v|m\/v|v\/v|vol|by (?:mass|weight|volume))\.?\)?(?![\w/]))?`;
const PERCENT = String.raw`${RANGE}\s*(?:wt\.?\s*|w\/w\s*)?(?:%|percent|per cent)${BASIS}`;
const MOLAR = String.raw`${NUMBER}\s*(mM|M|N|[Mm]olar|mol\s?\/\s?L|mol\s?\/\s?dm3|mol\s?\/\s?dm³|mol dm-3|mol dm⁻³|mol L-1|mol L⁻¹)(?!\w)`;
const GRAVITY = String.raw`(?:sp\.?\s*gr\.?|specific gravity|density|d|ρ)\s*(?:of|=)?\s*${NUMBER}(?:\s*g\s?\/\s?mL)?`;
const CONDITION =
  '(?:ice[- ]cold|cold|chilled|hot|warm|boiling|dry|anhydrous|absolute|distilled|redistilled|freshly (?:distilled|ground|prepared|cut)|fresh|deioni[sz]ed|demineralised|purified|tap|finely (?:powdered|ground|divided)|powdered|crushed|ground|granular|granulated|degassed|technical(?: grade)?|reagent(?: grade)?|pure|crude|solid|liquid|gaseous|molten|activated|fused|crystallised|crystalline|recrystallised)';
const FORM =
  '(?:dust|turnings|powder|pellets?|granules?|ribbon|filings|foil|wool|beads|flakes|shot|crystals?|pieces|lumps?|chips|tablets?|gas|wire|shavings|metal)';
const SOLVENT_LINK = /^(.+?)\s+(?:solution\s+)?in\s+(.+)$/i;

const BASES: Readonly<Record<string, 'massPercent' | 'volumePercent' | 'massVolumePercent'>> = {
  'w/w': 'massPercent',
  'm/m': 'massPercent',
  wt: 'massPercent',
  'by mass': 'massPercent',
  'by weight': 'massPercent',
  'w/v': 'massVolumePercent',
  'm/v': 'massVolumePercent',
  'v/v': 'volumePercent',
  vol: 'volumePercent',
  'by volume': 'volumePercent',
};

/** The matched words without the comma and spaces before them. */
const wordIn = (match: RegExpExecArray): string =>
  match[0].replace(/^[,;\s]+|[,\s]+$/g, '').toLowerCase();

const numberOf = (text: string): number => Number(text.replace(',', '.'));

/** "dilute hydrochloric acid (2 M)": a word beside a figure says nothing more. */
const vague = (strength: WrittenStrength): boolean =>
  strength.kind === 'dilute' || strength.kind === 'concentrated';

function setStrength(words: Words, strength: WrittenStrength, written: string): void {
  if (words.strength !== undefined && vague(strength) !== vague(words.strength)) {
    if (vague(words.strength)) words.strength = strength;
  } else if (words.strength !== undefined) words.clash ??= written.trim();
  else words.strength = strength;
}

function percentFrom(match: readonly (string | undefined)[], from: number): WrittenStrength {
  const low = numberOf(match[from]!);
  const high = match[from + 1] === undefined ? undefined : numberOf(match[from + 1]!);
  const basis = BASES[(match[from + 2] ?? '').toLowerCase()];
  return {
    kind: 'percent',
    value: high === undefined ? low : (low + high) / 2,
    ...(basis !== undefined && { basis }),
    ...(high !== undefined && { range: `${low}–${high} %` }),
  };
}

function molarFrom(value: string, unit: string): WrittenStrength {
  if (unit === 'N') return { kind: 'normality', value: numberOf(value) };
  return { kind: 'molarity', value: numberOf(value) / (unit === 'mM' ? 1000 : 1) };
}

type Take = (words: Words, match: RegExpExecArray) => void;

/** Something that may stand before or after a name. */
interface Modifier {
  readonly pattern: string;
  /** Letters whose case matters (M is not m) keep it. */
  readonly caseMatters?: boolean;
  readonly take: Take;
}

const MODIFIERS: readonly Modifier[] = [
  {
    pattern: PERCENT,
    take: (words, match) => setStrength(words, percentFrom(match, 1), match[0]),
  },
  {
    pattern: MOLAR,
    caseMatters: true,
    take: (words, match) => setStrength(words, molarFrom(match[1]!, match[2]!), match[0]),
  },
  {
    pattern: GRAVITY,
    take: (words, match) => {
      words.density_g_mL ??= numberOf(match[1]!);
    },
  },
  {
    pattern: String.raw`(?:saturated|sat'?d?\.?)`,
    take: (words, match) => setStrength(words, { kind: 'saturated' }, match[0]),
  },
  {
    pattern: String.raw`(?:concentrated|conc\.?)`,
    take: (words, match) => setStrength(words, { kind: 'concentrated' }, match[0]),
  },
  {
    pattern: String.raw`(?:diluted?|dil\.?)`,
    take: (words, match) => setStrength(words, { kind: 'dilute' }, match[0]),
  },
  {
    pattern: String.raw`(?:aqueous|aq\.?)`,
    take: (words) => {
      words.aqueous = true;
    },
  },
  {
    pattern: CONDITION,
    take: (words, match) => {
      words.conditions.push(wordIn(match));
    },
  },
];

const SUFFIX_ONLY: readonly Modifier[] = [
  {
    pattern: String.raw`(?:solutions?|soln\.?)`,
    take: (words) => {
      words.solution = true;
    },
  },
  {
    pattern: FORM,
    take: (words, match) => {
      words.form ??= wordIn(match);
    },
  },
];

const ADJECTIVES: Readonly<Record<string, string>> = {
  ethanolic: 'ethanol',
  methanolic: 'methanol',
  ethereal: 'diethyl ether',
};

const PREFIX_ONLY: readonly Modifier[] = [
  {
    pattern: `(${Object.keys(ADJECTIVES).join('|')})`,
    take: (words, match) => {
      words.solvent ??= ADJECTIVES[match[1]!.toLowerCase()]!;
    },
  },
  {
    pattern: String.raw`(?:an? )?(?:solution|soln\.?) of`,
    take: (words) => {
      words.solution = true;
    },
  },
];

interface Compiled {
  readonly pattern: RegExp;
  readonly take: Take;
}

const compiled = (modifiers: readonly Modifier[], wrap: (pattern: string) => string): Compiled[] =>
  modifiers.map(({ pattern, caseMatters, take }) => ({
    pattern: new RegExp(wrap(pattern), caseMatters === true ? '' : 'i'),
    take,
  }));

const BEFORE = compiled([...MODIFIERS, ...PREFIX_ONLY], (p) => String.raw`^${p}[,\s]+(?=\S)`);
const AFTER = compiled([...MODIFIERS, ...SUFFIX_ONLY], (p) => String.raw`[,;\s]+${p}$`);
const WHOLE = compiled([...MODIFIERS, ...SUFFIX_ONLY], (p) => String.raw`^${p}$`);

/** Takes off everything in a bracket after the name, `(2 M in THF)`, or leaves the bracket alone. */
function takeBracket(words: Words): boolean {
  const match = /^(.+?)\s+\(([^()]*(?:\([^()]*\)[^()]*)?)\)$/.exec(words.rest);
  if (match === null) return false;
  const trial: Words = { ...words, conditions: [...words.conditions], rest: match[1]! };
  for (const part of match[2]!.split(/[,;]\s+/)) {
    const inside = /^(?:(.*?)\s+)?in\s+(.+)$/i.exec(part.trim());
    const left = inside === null ? part.trim() : (inside[1] ?? '').trim();
    if (inside !== null) trial.solvent = inside[2]!;
    if (left !== '' && !takeWhole(trial, left)) return false;
  }
  Object.assign(words, trial);
  return true;
}

/** A run of modifiers and nothing else: `1 M aqueous`. */
function takeWhole(words: Words, text: string): boolean {
  for (const { pattern, take } of WHOLE) {
    const match = pattern.exec(text);
    if (match !== null) {
      take(words, match);
      return true;
    }
  }
  const name = words.rest;
  words.rest = text;
  const took = takeFrom(words, BEFORE);
  const left = words.rest;
  words.rest = name;
  return took && takeWhole(words, left);
}

function takeFrom(words: Words, modifiers: readonly Compiled[]): boolean {
  for (const { pattern, take } of modifiers) {
    const match = pattern.exec(words.rest);
    if (match === null) continue;
    const after = match.index + match[0].length;
    words.rest = `${words.rest.slice(0, match.index)}${words.rest.slice(after)}`.trim();
    take(words, match);
    return true;
  }
  return false;
}

function takeSolvent(words: Words): boolean {
  if (words.solvent !== undefined) return false;
  const match = SOLVENT_LINK.exec(words.rest);
  if (match === null) return false;
  words.rest = match[1]!;
  words.solvent = match[2]!;
  return true;
}

/** Takes one word or phrase off the name; false when nothing more comes off. */
export function takeModifier(words: Words): boolean {
  return (
    takeFrom(words, BEFORE) || takeBracket(words) || takeFrom(words, AFTER) || takeSolvent(words)
  );
}

const ICE: ReadonlyMap<string, string> = new Map(
  ['ice', 'crushed ice', 'cracked ice', 'ice chips', 'ice cubes'].map((name) => [
    keyOf(name),
    'ice',
  ]),
);
const ICE_WATER: ReadonlySet<string> = new Set(
  ['ice water', 'ice and water', 'iced water', 'ice-cold water'].map(keyOf),
);

/** `ice` and `ice water` are water, and cold. */
export function iceIn(name: string): string | undefined {
  const key = keyOf(name);
  return ICE.get(key) ?? (ICE_WATER.has(key) ? 'ice-cold' : undefined);
}

/** One spelling of spaces, dashes and percent signs; words otherwise as written. */
export function tidied(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\s\u00a0\u202f\u2009]+/g, ' ')
    .replace(/(\d)\s?%/g, '$1 %')
    .replace(/\s+([,;)])/g, '$1')
    .trim();
}
