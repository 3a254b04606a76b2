import { readAmountAt } from '../../quantity/amount.ts';
import type { Piece } from '../text.ts';
import { isQuantity, note, take } from './material-draft.ts';
import type { Draft, MaterialTrouble } from './material-draft.ts';

/** "14 g (0.10 mole) of aniline": more amounts of the same, in brackets before the name. */
export function bracketAfter(
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
export function readBrackets(
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
