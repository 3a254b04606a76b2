import type { AnyAmount } from '../../quantity/amount.ts';
import { readAmountAt } from '../../quantity/amount.ts';
import type { Piece } from '../text.ts';
import { bracketAfter, readBrackets } from './material-brackets.ts';
import { isQuantity, note, take } from './material-draft.ts';
import type { Draft, MaterialList, MaterialTrouble } from './material-draft.ts';

export type { MaterialList, MaterialTrouble, RawMaterial } from './material-draft.ts';

const LEAD =
  /^(?:the|an?|some|your|about the|all the|all of the|freshly prepared|racemic|plenty of|(?:several|a few|two or three) (?:small )?portions of|small portions of|the remaining|the rest of the|more)\s+/i;
const MIX =
  /^(?:a\s+|the\s+)?(?:(?:cold|cooled|ice-cold|hot|warm|boiling|stirred|well-stirred|(?:vigorously |rapidly |magnetically )?stirred|freshly prepared|clear|dilute|strong)\s+)*(?:mixture|solution|suspension|slurry|blend)(?:,?\s+which)?\s+(?:made\s+(?:up\s+)?of|of|consist(?:s|ing)\s+of|composed\s+of)\s+/i;

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
    // All that parts begins with a comma or a blank
    if (depth > 0 || (c !== ',' && !/\s/.test(c))) continue;
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
