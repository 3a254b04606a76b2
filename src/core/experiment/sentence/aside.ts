import { shapeOf } from '../vessels.ts';
import type { Token } from './token.ts';

/** What opens words that only tell how a thing looks or is rigged; no matter moves in them. */
const OPENERS: readonly (readonly string[])[] = [
  'fitted with',
  'equipped with',
  'topped with',
  'surmounted by',
  'packed with',
  'having',
  'protected by',
  'protected with',
  'surrounded by',
  'surrounded with',
  'during which',
  'provided with',
  'closed with',
  'carrying',
  'which',
  'to yield',
  'to afford',
  'to leave',
  'to furnish',
  'to provide',
  'to induce',
  'to start',
  'to initiate',
  'to avoid',
  'to prevent',
  'to help',
  'to remove',
  'to ensure',
  'whereupon',
  'by which time',
  'at which point',
  'at which time',
  'taking care',
  'being careful',
  'in order to',
  'so as to',
  'such that',
  'at such a rate',
  'if it',
  'if they',
  'as soon as',
  'unless',
  'because',
].map((phrase) => phrase.split(' '));

const EQUIPMENT =
  /^(?:condensers?|thermometers?|stirrers?|stopper|bung|cork|septum|septa|tube|balloon|mantle|mantles|adapter|adaptor|bubbler|inlet|outlet|line|still-?head|column|guard|joint|clamp|clip|magnet|follower|bar|stirbar|probe|lid|plug|hotplate|paper|glass|spatula|rod|funnel)$/;
const GERUND = /^[a-z]{2,}ing$/;
/** An amount that matter is measured by; an aside that holds one would lose it. */
const MATTER =
  /(?:\d|\bfew|\blittle|\bsome|\bexcess)[\d.,–-]*\s*(?:k?g|mg|[mµμ]?[lL]|cm3|cm³|m?mol|drops?|equiv|eq)(?![\p{L}])(?! per )/u;

/** Where an aside that begins at a token may end, the nearest first; nothing where none begins. */
export function asideEnds(tokens: readonly Token[], at: number, stop = tokens.length): number[] {
  if (tokens[at]!.depth > 0) return [];
  const list = OPENERS.some((words) => words.every((word, k) => tokens[at + k]?.word === word));
  const after = tokens[at - 1]?.word;
  const gerund = (after === ',' || after === 'and' || after === ';') && isGerund(tokens, at);
  if (!list && !gerund) return equipmentEnd(tokens, at);
  const ends: number[] = [];
  for (let i = at + 1; i <= stop; i++) {
    const word = i === stop ? undefined : tokens[i]?.word;
    const stops =
      word === undefined ||
      (tokens[i]!.depth === 0 && (word === ',' || word === ';' || (gerund && word === 'and')));
    if (!stops) continue;
    if (holdsMatter(tokens, at, i)) break;
    // After its first comma a passive begins a sentence of its own
    if (
      ends.length > 0 &&
      tokens.slice(ends.at(-1), i).some((token) => /^(?:is|are|was|were)$/.test(token.word))
    )
      break;
    // The comma that closes it goes with it
    ends.push(word === ',' && i + 1 < tokens.length ? i + 1 : i);
    if (ends.length > 4 || tokens[i + 1]?.word === 'then') break;
  }
  return ends;
}

function isGerund(tokens: readonly Token[], at: number): boolean {
  let i = at;
  while (i < at + 2 && /(?:ly|not|without|then|also|just)$/.test(tokens[i]?.word ?? '')) i++;
  return GERUND.test(tokens[i]?.word ?? '');
}

/** "with a well-fitting stopper", "and a dropping funnel". */
function equipmentEnd(tokens: readonly Token[], at: number): number[] {
  if (!/^(?:with|and|,|under|through|using)$/.test(tokens[at]!.word)) return [];
  let i = at + 1;
  if (tokens[i]?.word === 'and') i++;
  const plain = !/^(?:an?|the|your|its)$/.test(tokens[i]?.word ?? '');
  if (plain && tokens[at]!.word !== ',' && tokens[at]!.word !== 'and') return [];
  for (let k = i; k < Math.min(tokens.length, i + (plain ? 2 : 6)); k++) {
    const { word } = tokens[k]!;
    if (/^(?:[,;:]|and|with|in|to|into|of)$/.test(word) || /dean/.test(word) || /^\d/.test(word))
      return [];
    if (GERUND.test(word) && word !== 'dropping') return [];
    if (EQUIPMENT.test(word) && EQUIPMENT.test(tokens[k + 1]?.word ?? '')) continue;
    if (EQUIPMENT.test(word))
      return word === 'funnel' &&
        !/^(?:dropping|addition|pressure-equalising|pressure-equalizing)$/.test(tokens[k - 1]!.word)
        ? []
        : [k + 1];
  }
  return [];
}

/** "fitted with a 25 mL dropping funnel" measures a vessel, not matter. */
function holdsMatter(tokens: readonly Token[], from: number, to: number): boolean {
  const text = tokens
    .slice(from, to)
    .map((token) => token.text)
    .join(' ');
  if (!MATTER.test(text)) return false;
  return !text
    .split(/,| and /)
    .every((part) => !MATTER.test(part) || (!part.includes('(') && shapeOf(part) !== undefined));
}
