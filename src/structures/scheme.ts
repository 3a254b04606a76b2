import { line, page, px, textWidth } from './svg.ts';
import type { Conditions, SchemeOptions } from './port.ts';

/** A picture to be placed: its size and what draws it with its top left corner at 0, 0. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly body: string;
}

/** A part of a scheme, ready to be placed. */
export interface SchemeItem {
  readonly picture: Picture;
  readonly caption?: string | undefined;
  readonly coefficient?: number | undefined;
}

const TEXT = 15;
const CAPTION = 13;
const COEFFICIENT = 20;
const LEADING = 1.35;
const GAP = 12;
const MARGIN = 10;
const ROW_GAP = 26;
const ARROW_MIN = 96;
const MOST_LETTERS = 34;

/** A box in a row. */
interface Box {
  readonly width: number;
  /** Above and below the axis of the row, on which plus signs and the arrow lie. */
  readonly above: number;
  readonly below: number;
  readonly draw: (x: number, axis: number) => string;
}

function fill(words: readonly string[], most: number): string[] {
  const lines: string[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last === undefined || last.length + word.length + 1 > most) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}

/**
 * Breaks a long line at spaces into lines of about one length, so that one condition does not
 * stretch the arrow over the page and no word is left alone.
 */
export function wrap(text: string): string[] {
  const words = text.trim().split(/\s+/);
  const greedy = fill(words, MOST_LETTERS);
  const even = fill(words, Math.ceil(text.length / greedy.length) + 3);
  return even.length === greedy.length ? even : greedy;
}

/** A substance written instead of drawn. */
export function written(text: string): Picture {
  const size = 17;
  return {
    width: textWidth(text, size),
    height: size * 1.4,
    body: line({ x: 0, y: size * 1.05, size, anchor: 'start', text }),
  };
}

function plus(): Box {
  const arm = 7;
  return {
    width: 2 * arm,
    above: arm,
    below: arm,
    draw: (x, axis) =>
      `<path d="M${px(x)},${px(axis)}h${2 * arm}m-${arm},-${arm}v${2 * arm}" fill="none" stroke="currentColor" stroke-width="1.6"/>`,
  };
}

function itemBox({ picture, caption, coefficient }: SchemeItem): Box {
  const number = coefficient === undefined || coefficient === 1 ? '' : String(coefficient);
  const lead = number === '' ? 0 : textWidth(number, COEFFICIENT) + 4;
  const captions = caption === undefined ? [] : wrap(caption);
  const captionWidth = Math.max(0, ...captions.map((text) => textWidth(text, CAPTION)));
  const inner = Math.max(picture.width, captionWidth);
  const left = (inner - picture.width) / 2;
  return {
    width: lead + inner,
    above: picture.height / 2,
    below: picture.height / 2 + captions.length * CAPTION * LEADING,
    draw: (x, axis) => {
      const top = axis - picture.height / 2;
      const texts = captions.map((text, i) =>
        line({
          x: x + lead + inner / 2,
          y: axis + picture.height / 2 + (i + 0.85) * CAPTION * LEADING,
          size: CAPTION,
          text,
        }),
      );
      const before =
        number === ''
          ? ''
          : line({
              x: x + left,
              y: axis + COEFFICIENT * 0.35,
              size: COEFFICIENT,
              anchor: 'start',
              text: number,
            });
      return `${before}<g transform="translate(${px(x + lead + left)} ${px(top)})">${picture.body}</g>${texts.join('')}`;
    },
  };
}

function arrowBox(conditions: Conditions): Box {
  const above = conditions.above.flatMap(wrap);
  const below = conditions.below.flatMap(wrap);
  const widest = Math.max(0, ...[...above, ...below].map((text) => textWidth(text, TEXT)));
  const width = Math.max(ARROW_MIN, widest + 28);
  const step = TEXT * LEADING;
  const head = 11;
  return {
    width,
    above: above.length * step + 8,
    below: below.length * step + 8,
    draw: (x, axis) => {
      const middle = x + (width - head) / 2;
      const texts = [
        ...above.map((text, i) => ({ text, y: axis - 8 - (above.length - 1 - i) * step })),
        ...below.map((text, i) => ({ text, y: axis + 6 + (i + 0.78) * step })),
      ].map(({ text, y }) => line({ x: middle, y, size: TEXT, text }));
      return (
        `<path d="M${px(x)},${px(axis)}H${px(x + width - head + 2)}" fill="none" stroke="currentColor" stroke-width="1.6"/>` +
        `<path d="M${px(x + width)},${px(axis)}l-${head},-4.5l2.5,4.5l-2.5,4.5z" fill="currentColor"/>${texts.join('')}`
      );
    },
  };
}

const widthOf = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, box) => sum + box.width, 0) + GAP * (boxes.length - 1);

/** Fills rows one after another; a plus sign stays with the substance after it. */
function fillRows(units: readonly (readonly Box[])[], room: number): Box[][] {
  const rows: Box[][] = [];
  for (const unit of units) {
    const last = rows.at(-1);
    if (last === undefined || widthOf([...last, ...unit]) > room) rows.push([...unit]);
    else last.push(...unit);
  }
  return rows;
}

/** One row if it fits; else the arrow begins a row, and each side is filled by itself. */
function rowsOf(left: readonly Box[], arrow: Box, right: readonly Box[], room: number): Box[][] {
  const whole = [...left, arrow, ...right];
  if (widthOf(whole) <= room) return [whole];
  const units = (boxes: readonly Box[]): Box[][] =>
    boxes.flatMap((box, i) => (i === 0 ? [[box]] : i % 2 === 1 ? [[box, boxes[i + 1]!]] : []));
  const [first, ...others] = units(right);
  return [...fillRows(units(left), room), ...fillRows([[arrow, ...first!], ...others], room)];
}

/**
 * Lays out a reaction scheme: pictures on an axis, plus signs between them, an arrow with its
 * conditions over and under it, in as many rows as the width asks for.
 */
export function layScheme(
  reactants: readonly SchemeItem[],
  products: readonly SchemeItem[],
  conditions: Conditions,
  options: SchemeOptions,
): string {
  const side = (items: readonly SchemeItem[]): Box[] =>
    items.flatMap((item, i) => (i === 0 ? [itemBox(item)] : [plus(), itemBox(item)]));
  const room = (options.maxWidth ?? 900) - 2 * MARGIN;
  const rows = rowsOf(side(reactants), arrowBox(conditions), side(products), room);
  let y = MARGIN;
  let widest = 0;
  const drawn = rows.map((row) => {
    const above = Math.max(...row.map((box) => box.above));
    const below = Math.max(...row.map((box) => box.below));
    const axis = y + above;
    let x = MARGIN;
    const pieces = row.map((box) => {
      const piece = box.draw(x, axis);
      x += box.width + GAP;
      return piece;
    });
    widest = Math.max(widest, x - GAP + MARGIN);
    y = axis + below + ROW_GAP;
    return pieces.join('');
  });
  return page({
    width: widest,
    height: y - ROW_GAP + MARGIN,
    dark: options.dark,
    label: options.label ?? 'Reaction scheme',
    body: drawn.join(''),
  });
}
