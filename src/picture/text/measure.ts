/**
 * Widths of letters in hundredths of an em. They are those of DejaVu Sans, the widest face of the
 * stack (read from the font's own table), so that text set in a narrower one leaves room and never
 * runs over its neighbour.
 */
const GROUPS: readonly (readonly [width: number, letters: string])[] = [
  [28, "ijl'"],
  [32, ' ,.·IJ'],
  [35, '/:;\\|f-'],
  [40, '()[]t!r₀₁₂₃₄₅₆₇₈₉⁰¹²³⁻'],
  [50, '"*_`°–zs'],
  [56, '?cL'],
  [60, 'vxyPTYaoFk'],
  [64, 'eESbdghnpqu$0123456789{}'],
  [69, 'KAVBRXZC'],
  [78, 'UHNDGOQ&'],
  [84, 'w#+<=>^~−×'],
  [97, 'mM%'],
  [100, 'W@…→'],
];

const WIDTHS = new Map(
  GROUPS.flatMap(([width, letters]) => Array.from(letters, (c) => [c, width / 100] as const)),
);
const THIN_SPACE_em = 0.2;
/** Letters with marks, Greek. */
const OTHER_em = 0.66;
/** Chinese, Japanese and Korean characters, and pictures, fill their square. */
const WIDE_em = 1.1;
/** How much wider a heavy cut stands. */
const BOLD = 1.12;

export interface TextStyle {
  readonly size: number;
  readonly bold?: boolean;
}

function letterWidth_em(c: string): number {
  const known = WIDTHS.get(c);
  if (known !== undefined) return known;
  if (c === '\u00a0') return WIDTHS.get(' ')!;
  if (c === '\u202f' || c === '\u2009') return THIN_SPACE_em;
  return c.codePointAt(0)! > 0x2e7f ? WIDE_em : OTHER_em;
}

/** The same words are measured at every keystroke. */
const measured = new Map<string, number>();
const MOST_MEASURED = 20_000;

function width_em(text: string): number {
  const known = measured.get(text);
  if (known !== undefined) return known;
  let sum = 0;
  for (const c of text) sum += letterWidth_em(c);
  if (measured.size >= MOST_MEASURED) measured.clear();
  measured.set(text, sum);
  return sum;
}

/** How wide a line of text stands at most, in the units of its size. */
export function textWidth(text: string, { size, bold = false }: TextStyle): number {
  return width_em(text) * size * (bold ? BOLD : 1);
}

/** Breaks text at spaces into lines of at most a width; a word that is longer is broken itself. */
export function wrapText(text: string, width: number, style: TextStyle): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \t\n]+/).filter((part) => part !== '')) {
    const joined = line === '' ? word : `${line} ${word}`;
    if (textWidth(joined, style) <= width) {
      line = joined;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = piecesOf(word, width, style);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1)!;
  }
  if (line !== '') lines.push(line);
  // A dot between two figures is not wanted at the end of a line
  return lines.map((each) => each.replace(/ ·$/, ''));
}

/** A chemical name is parted after a hyphen or bracket where there is one, else anywhere. */
function piecesOf(word: string, width: number, style: TextStyle): string[] {
  const pieces: string[] = [];
  let rest = Array.from(word);
  while (rest.length > 1 && textWidth(rest.join(''), style) > width) {
    let cut = 1;
    while (cut < rest.length && textWidth(rest.slice(0, cut + 1).join(''), style) <= width) cut++;
    const mark = rest.slice(0, cut).findLastIndex((c) => /[-)\u2010/]/.test(c)) + 1;
    if (mark > cut / 3) cut = mark;
    pieces.push(rest.slice(0, cut).join(''));
    rest = rest.slice(cut);
  }
  return [...pieces, rest.join('')];
}

/** At most so many lines; where more would be needed the last ends in an ellipsis. */
export function wrapWithin(text: string, width: number, most: number, style: TextStyle): string[] {
  const lines = wrapText(text, width, style);
  if (lines.length <= most) return lines;
  let last = `${lines[most - 1]}…`;
  while (last.length > 2 && textWidth(last, style) > width)
    last = `${last.slice(0, -2).trimEnd()}…`;
  return [...lines.slice(0, most - 1), last];
}

/** A number and its unit stay on one line: a no-break space between them. */
export function keepAmounts(text: string): string {
  return text
    .replace(/(\d) (?=[a-zA-Zµ°%])/g, '$1\u00a0')
    .replace(/(\d) ([×x]) (?=\d)/g, '$1\u00a0$2\u00a0');
}
