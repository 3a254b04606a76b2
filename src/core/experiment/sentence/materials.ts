import type { Amount, AmountKind, AnyAmount } from '../../quantity/amount.ts';
import { readAmountAt } from '../../quantity/amount.ts';
import type { Piece } from '../text.ts';
import type { RawRef } from './reference.ts';

/** A material as a sentence writes it, before its name is looked up. */
export interface RawMaterial {
  readonly name: string;
  /** Offsets in the document of the whole phrase, amounts included. */
  readonly start: number;
  readonly end: number;
  readonly amounts: readonly AnyAmount[];
  readonly purity_percent?: number;
  readonly density_g_mL?: number;
  readonly repeat: number;
  /** "the zinc": something that an earlier sentence set aside. */
  readonly definite: boolean;
  /** "the filtrate" in a list: something that lies in a vessel already. */
  readonly ref?: RawRef;
}

export interface MaterialTrouble {
  readonly message: string;
  readonly hint: string;
  readonly start: number;
  readonly end: number;
}

export interface MaterialList {
  readonly materials: readonly RawMaterial[];
  readonly trouble: readonly MaterialTrouble[];
}

/** Amounts that say how much is taken; the other kinds (M, %) belong to the name. */
const QUANTITY: ReadonlySet<AmountKind | 'unquantified'> = new Set<AmountKind | 'unquantified'>([
  'mass',
  'volume',
  'amount',
  'equivalents',
  'moleFraction',
  'drops',
  'unquantified',
]);

function isQuantity(amount: AnyAmount): boolean {
  if (amount.kind === 'unquantified') return amount.sense === 'excess' || amount.sense === 'some';
  return QUANTITY.has(amount.kind);
}

const LEAD =
  /^(?:the|an?|some|your|about the|all the|all of the|freshly prepared|racemic|plenty of|(?:several|a few|two or three) (?:small )?portions of|small portions of|the remaining|the rest of the|more)\s+/i;
const MIX =
  /^(?:a\s+|the\s+)?(?:(?:cold|cooled|ice-cold|hot|warm|boiling|stirred|well-stirred|(?:vigorously |rapidly |magnetically )?stirred|freshly prepared|clear|dilute|strong)\s+)*(?:mixture|solution|suspension|slurry|blend)(?:,?\s+which)?\s+(?:made\s+(?:up\s+)?of|of|consist(?:s|ing)\s+of|composed\s+of)\s+/i;

interface Draft {
  name: string;
  start: number;
  end: number;
  amounts: AnyAmount[];
  purity_percent?: number;
  density_g_mL?: number;
  repeat: number;
  definite: boolean;
}

/** Reads a list of materials with their amounts. Empty where the text holds none. */
export function readMaterials(piece: Piece): MaterialList {
  const drafts: Draft[] = [];
  const trouble: MaterialTrouble[] = [];
  for (const item of separate(piece)) {
    const draft = readItem(item, trouble);
    const last = drafts[drafts.length - 1];
    const kinds = draft.amounts.map((amount) => amount.kind);
    // "methanol 200 mL, then a further 100 mL" is taken twice, not measured twice
    if (
      draft.name === '' &&
      last &&
      kinds.length > 0 &&
      last.amounts.some((amount) => amount.kind !== 'unquantified' && kinds.includes(amount.kind))
    )
      drafts.push({ ...draft, name: last.name, definite: last.definite });
    else if (draft.name === '' && last) {
      last.amounts.push(...draft.amounts);
      last.repeat = Math.max(last.repeat, draft.repeat);
      last.end = draft.end;
    } else if (draft.name !== '' || draft.amounts.length > 0) drafts.push(draft);
  }
  return { materials: drafts, trouble };
}

/** Parts "A (1 g), B 2 mL and C" at commas, "and", "plus"; and "a solution of A in B" at its "in". */
function separate(piece: Piece): Piece[] {
  const parts: Piece[] = [];
  const solution = MIX.exec(piece.text);
  let begin = solution ? solution[0].length : 0;
  const { text } = piece;
  let depth = 0;
  let inSolution = solution !== null;
  const push = (end: number) => {
    const raw = text.slice(begin, end);
    const lead = raw.length - raw.trimStart().length;
    if (raw.trim() !== '') parts.push({ text: raw.trim(), start: piece.start + begin + lead });
  };
  for (let i = begin; i < text.length; i++) {
    const c = text[i]!;
    if (c === '(' || c === '[') depth++;
    else if (c === ')' || c === ']') depth = Math.max(0, depth - 1);
    if (depth > 0) continue;
    const word =
      /^(?:,?\s+(?:diluted|wetted|moistened|mixed) with\s+|\s+containing\s+|,\s+(?:and\s+|then\s+)?(?:finally\s+)?(?:with\s+)?|\s+and\s+(?:then\s+|finally\s+)?(?:with\s+)?|\s+plus\s+|\s+\+\s+|\s+with\s+|,?\s+(?:dissolved|suspended|slurried) in\s+)/i.exec(
        text.slice(i, i + 30),
      );
    // "bromobenzene (6.3 g) in dry ether (20 mL)" is two materials; "... in a beaker" is not
    const amountBefore =
      !inSolution &&
      text[i - 1] === ')' &&
      /^\s+in\s+(?:[a-z-]+\s+){1,4}\(\d|^\s+in\s+\d/i.test(text.slice(i));
    const inWord = inSolution || amountBefore ? /^\s+in\s+/i.exec(text.slice(i, i + 6)) : null;
    const cut = word ?? inWord;
    // "three times with ether" is one item
    if (
      !cut ||
      (/^\s+with\s+$/i.test(cut[0]) && /\b(?:times|twice|thrice|once)$/i.test(text.slice(begin, i)))
    )
      continue;
    push(i);
    begin = i + cut[0].length;
    if (inWord) inSolution = false;
    const again = MIX.exec(text.slice(begin));
    if (again) {
      begin += again[0].length;
      inSolution = true;
    }
    i = begin - 1;
  }
  push(text.length);
  return parts;
}

function readItem(item: Piece, trouble: MaterialTrouble[]): Draft {
  const draft: Draft = {
    name: '',
    start: item.start,
    end: item.start + item.text.length,
    amounts: [],
    repeat: 1,
    definite: /^(?:the|all the|all of the|your|the remaining|the rest of the)\s/i.test(item.text),
  };
  const counted =
    /^(?:an? (?:further|additional) |another )?(two|three|four|five|six|[2-6]) (?:small |further )?portions of (?!about|ca)(?!\d)/i.exec(
      item.text,
    );
  if (counted) draft.repeat = COUNT_WORDS[counted[1]!.toLowerCase()] ?? Number(counted[1]);
  const turns =
    /^(?:then )?(?:(once|twice|thrice)|(two|three|four|five|six|[2-6]) times) with /i.exec(
      item.text,
    );
  if (turns)
    draft.repeat = turns[1]
      ? { once: 1, twice: 2, thrice: 3 }[turns[1].toLowerCase()]!
      : (COUNT_WORDS[turns[2]!.toLowerCase()] ?? Number(turns[2]));
  let at = turns
    ? turns[0].length
    : counted
      ? counted[0].length
      : readLeading(item, draft, trouble);
  let rest = item.text.slice(at);
  const bare = rest.replace(LEAD, '');
  at += rest.length - bare.length;
  rest = readBrackets(bare, item.start + at, draft, trouble);
  rest = readTrailing(rest, item.start + at, draft, trouble);
  draft.name = rest
    .replace(/\s+/g, ' ')
    .replace(/(?:[\s,:;]|\s(?:and|then|plus))+$/, '')
    .trim();
  return draft;
}

const COUNT_WORDS: Readonly<Record<string, number>> = {
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
};

function take(amount: AnyAmount, draft: Draft): void {
  draft.amounts.push(amount);
  if (amount.kind !== 'unquantified' && amount.repeat !== undefined)
    draft.repeat = Math.max(draft.repeat, amount.repeat);
}

/** "10 mL of ethanol", "three 10 mL portions of ether", "2 × 5 mL ether". */
function readLeading(item: Piece, draft: Draft, trouble: MaterialTrouble[]): number {
  let at = LEAD.exec(item.text)?.[0].length ?? 0;
  if (readAmountAt(item.text, 0).kind === 'amount') at = 0;
  for (let guard = 0; guard < 6; guard++) {
    const reading = readAmountAt(item.text, at);
    if (reading.kind === 'refused') {
      note(reading, item.start, trouble);
      return at;
    }
    if (reading.kind !== 'amount' || !isQuantity(reading.amount)) return at;
    take(reading.amount, draft);
    const end = bracketAfter(item, reading.end, draft, trouble) ?? reading.end;
    const after =
      /^(?:[- ]?portions?|\s+(?:samples?|quantit(?:y|ies)|aliquots?)(?=\s+of\b))?(?:\s+each)?\s*,?\s*(?:of\s+(?:(?:the|an?)\s+)?)?/i.exec(
        item.text.slice(end),
      );
    at = end + (after?.[0].length ?? 0);
  }
  return at;
}

/** "14 g (0.10 mole) of aniline": more amounts of the same, in brackets before the name. */
function bracketAfter(
  item: Piece,
  at: number,
  draft: Draft,
  trouble: MaterialTrouble[],
): number | undefined {
  const bracket = /^\s*\(([^()]*)\)(?=,?\s+(?:of\s|each\b)?)/.exec(item.text.slice(at));
  if (!bracket) return undefined;
  const pieces = bracket[1]!.split(/[;,](?!\d{3}\b)\s*/).map((piece) => piece.trim());
  const amounts = pieces.map((piece) => readAmountAt(piece, 0));
  if (!amounts.every((reading) => reading.kind === 'amount' && isQuantity(reading.amount)))
    return undefined;
  pieces.forEach((piece) => readBracketPiece(piece, item.start + at, draft, trouble));
  return at + bracket[0].length;
}

/** Takes "(1.12 g, 10.0 mmol, 1.0 equiv)" off the name; a bracket that holds no amount stays. */
function readBrackets(
  text: string,
  start: number,
  draft: Draft,
  trouble: MaterialTrouble[],
): string {
  let rest = text;
  let search = 0;
  for (let open = findBracket(rest, search); open; open = findBracket(rest, search)) {
    const inner = rest.slice(open.from + 1, open.to);
    const pieces = inner
      .split(/[;,](?!\d{3}\b)\s*|\s+and\s+/)
      .map((s) => s.trim())
      .filter(Boolean);
    const at = start + open.from;
    const kept = pieces.filter((piece) => !readBracketPiece(piece, at, draft, trouble));
    if (kept.length === pieces.length) {
      search = open.to + 1;
      continue;
    }
    const before = rest.slice(0, open.from).trimEnd();
    const name = kept.length > 0 ? `${before} (${kept.join(', ')})` : before;
    rest = `${name} ${rest.slice(open.to + 1).trim()}`.trim();
    search = name.length;
  }
  return rest;
}

function findBracket(text: string, search: number): { from: number; to: number } | undefined {
  for (let i = Math.max(1, search); i < text.length; i++) {
    if (text[i] !== '(' || !/\s/.test(text[i - 1]!)) continue;
    let depth = 0;
    for (let j = i; j < text.length; j++) {
      if (text[j] === '(') depth++;
      else if (text[j] === ')' && --depth === 0) {
        const inner = text.slice(i + 1, j);
        if (
          /\d|excess|some|little|drops?|crystals?|spatula|pinch/i.test(inner) &&
          !isNamePart(inner)
        )
          return { from: i, to: j };
        i = j;
        break;
      }
    }
  }
  return undefined;
}

/** "(1 M)", "(40–60)", "(95 %)", "(II)": strength or name, not how much. */
function isNamePart(inner: string): boolean {
  const reading = readAmountAt(inner.trim(), 0);
  if (reading.kind !== 'amount') return !/[a-zµ%]/i.test(inner);
  return (
    !isQuantity(reading.amount) && !/[;,]/.test(inner) && reading.amount.kind !== 'massPerVolume'
  );
}

function readBracketPiece(
  piece: string,
  start: number,
  draft: Draft,
  trouble: MaterialTrouble[],
): boolean {
  const density =
    /^(?:d|ρ|density|sp\.? ?gr\.?|specific gravity)\s*[=:]?\s*(\d+(?:[.,]\d+)?)(?:\s*g\s*(?:\/\s*mL|mL-1|mL⁻¹|cm-3|cm⁻³|\/\s*cm3|\/\s*cm³))?$/i.exec(
      piece,
    );
  if (density) {
    draft.density_g_mL = Number(density[1]!.replace(',', '.'));
    return true;
  }
  const purity =
    /^(?:assay|purity|pure)?\s*[:=]?\s*(\d+(?:[.,]\d+)?)\s*%\s*(?:pure|purity|assay)$|^(?:assay|purity)\s*[:=]?\s*(\d+(?:[.,]\d+)?)\s*%$/i.exec(
      piece,
    );
  if (purity) {
    draft.purity_percent = Number((purity[1] ?? purity[2])!.replace(',', '.'));
    return true;
  }
  // What a gas is measured at, where that is what is assumed of gases; a boiling point
  if (
    /^(?:measured )?(?:at )?(?:20 °C|1(?:\.0+)? atm|760 (?:mmHg|torr)|101(?:\.3\d*)? kPa)$/i.test(
      piece,
    ) ||
    /^(?:bp|b\.p\.|mp|m\.p\.) /i.test(piece)
  )
    return true;
  if (/^(?:limiting(?: reagent)?|basis|1 equiv, limiting)$/i.test(piece)) return true;
  const words = piece.replace(/^(?:one|an?) (?:very )?(?:(?:small|tiny|single) )?(?=[a-z])/i, 'a ');
  const reading = readAmountAt(words, 0);
  if (reading.kind === 'refused') {
    note(reading, start, trouble);
    return true;
  }
  if (reading.kind !== 'amount' || !isQuantity(reading.amount)) return false;
  const after = words.slice(reading.end).trim();
  if (
    after !== '' &&
    !/^(?:each|portions?|in all|in total|total|limiting|excess|theor\w*)$/i.test(after)
  )
    return false;
  take(reading.amount, draft);
  return true;
}

/** "ethanol 10 mL", "ether 3 × 10 mL", "copper(II) sulfate, 1.274 g". */
function readTrailing(
  text: string,
  start: number,
  draft: Draft,
  trouble: MaterialTrouble[],
): string {
  for (const match of text.matchAll(/(?:^|[\s,])(?=[^\s,])/g)) {
    const from = match.index + match[0].length;
    if (from === 0) continue;
    const found: AnyAmount[] = [];
    let at = from;
    for (let guard = 0; guard < 6; guard++) {
      const reading = readAmountAt(text, at);
      if (reading.kind === 'refused') {
        if (/^[\s,)]*$/.test(text.slice(reading.end))) {
          note(reading, start, trouble);
          return text.slice(0, match.index);
        }
        break;
      }
      if (reading.kind !== 'amount' || !isQuantity(reading.amount)) break;
      found.push(reading.amount);
      at = reading.end;
      const gap = /^(?:\s*[,;]\s*|\s+(?:\(?or\s+)?)/.exec(text.slice(at));
      at += gap?.[0].length ?? 0;
    }
    if (
      found.length > 0 &&
      /^(?:each(?: time)?|portions?|in all|in total|)\s*$/i.test(text.slice(at).trim())
    ) {
      found.forEach((amount) => take(amount, draft));
      return text.slice(0, match.index);
    }
  }
  return text;
}

function note(
  reading: { message: string; hint: string; start: number; end: number },
  start: number,
  trouble: MaterialTrouble[],
): void {
  trouble.push({
    message: reading.message,
    hint: reading.hint,
    start: start + reading.start,
    end: start + reading.end,
  });
}

/** The volume or mass that a list of amounts gives first, for a vessel's own use. */
export function firstOf(amounts: readonly AnyAmount[], kind: AmountKind): Amount | undefined {
  return amounts.find((a): a is Amount => a.kind === kind);
}
