import type { BalanceCourse, CourseStage } from '../../core/report/result/course.ts';
import { textWidth } from '../text/measure.ts';
import { stageWords } from './words.ts';
import type { BarWording, StageWords } from './words.ts';

/** One stage with its place in the picture, in px. */
export interface PlacedStage {
  readonly stage: CourseStage;
  readonly words: StageWords;
  /** Top of the bar, and of the words that belong to it. */
  readonly y: number;
  readonly bar: { readonly x: number; readonly width: number };
  /** Part of the bar that is not the product, at its end. */
  readonly over: { readonly x: number; readonly width: number };
  readonly gone: { readonly x: number; readonly width: number };
  /** Where the words about what went begin or, when `end`, end. */
  readonly aside: { readonly x: number; readonly end: boolean };
}

export interface BarLayout {
  readonly width: number;
  readonly height: number;
  /** Under one another in a narrow place: words over each bar in place of beside it. */
  readonly narrow: boolean;
  readonly theory_x: number;
  readonly barHeight: number;
  readonly stages: readonly PlacedStage[];
  /** Baseline of the words of a row, from its top. */
  readonly top: number;
}

export const SIZE = 15;
export const SMALL = 13;
export const LINE = 17;
const NARROW_BELOW = 620;
const GAP = 20;

/** Room beside the bars and the mass that fills one; bars that share it can be compared. */
export interface BarRoom {
  readonly left: number;
  readonly right: number;
  readonly most_g: number;
}

export function roomOf(course: BalanceCourse, wording: BarWording): BarRoom {
  const words = course.stages.map((stage) => stageWords(stage, course, wording));
  const ends_g = course.stages.map(
    ({ start_g, product_g, over_g }) => start_g + product_g + over_g,
  );
  return {
    left: labelWidth(words),
    right: asideWidth(words),
    most_g: Math.max(course.theory_g, ...ends_g),
  };
}

/** Room in which each of several bars fits. */
export function roomForAll(rooms: readonly BarRoom[]): BarRoom {
  const most = (of: (room: BarRoom) => number) => Math.max(0, ...rooms.map(of));
  return {
    left: most(({ left }) => left),
    right: most(({ right }) => right),
    most_g: most(({ most_g }) => most_g),
  };
}

export function layoutOf(
  course: BalanceCourse,
  wording: BarWording,
  width: number,
  shared: BarRoom = roomOf(course, wording),
): BarLayout {
  const narrow = width < NARROW_BELOW;
  const words = course.stages.map((stage) => stageWords(stage, course, wording));
  const { most_g } = shared;
  const left = narrow ? 0 : shared.left;
  const right = narrow ? 0 : shared.right;
  const room = Math.max(120, width - left - right - 2);
  const x = (mass_g: number): number =>
    left + 1 + (most_g > 0 ? (Math.max(0, mass_g) / most_g) * room : 0);
  const pitch = narrow ? 60 : 58;
  const top = narrow ? 24 : 6;
  let y = top;
  const stages = course.stages.map((stage, i): PlacedStage => {
    const { start_g, product_g, over_g, gone_g } = stage;
    const end_g = start_g + product_g + over_g;
    const said = words[i]!;
    const goneEnd = x(end_g + gone_g);
    const lines = asideLines(said);
    const needs = Math.max(0, ...lines.map((line) => textWidth(line, { size: SMALL })));
    const own_y = y;
    y += narrow ? pitch + lines.length * LINE : pitch;
    const fits = goneEnd + 8 + needs <= width;
    return {
      stage,
      words: said,
      y: own_y,
      bar: { x: x(start_g), width: x(start_g + product_g) - x(start_g) },
      over: { x: x(start_g + product_g), width: x(end_g) - x(start_g + product_g) },
      gone: { x: x(end_g), width: goneEnd - x(end_g) },
      aside: narrow
        ? { x: Math.min(Math.max(0, x(end_g)), Math.max(0, width - needs)), end: false }
        : { x: fits ? goneEnd + 8 : width, end: !fits },
    };
  });
  return {
    width,
    height: y - (narrow ? 26 : 18),
    narrow,
    theory_x: x(course.theory_g),
    barHeight: narrow ? 20 : 26,
    stages,
    top,
  };
}

/** What went, and under it what is too much. */
export function asideLines({ gone, over }: StageWords): string[] {
  return [gone, over].filter((each) => each !== '');
}

/** The measured number of a row: mass and share of the theory. */
export function valueText({ value, percent }: StageWords): string {
  return percent === '' ? value : `${value} · ${percent}`;
}

function labelWidth(words: readonly StageWords[]): number {
  const widths = words.flatMap((each) => [
    textWidth(each.label, { size: SIZE, bold: true }) +
      GAP +
      textWidth(each.value, { size: SIZE, bold: true }),
    textWidth(each.place, { size: SMALL }) + GAP + textWidth(each.percent, { size: SMALL }),
  ]);
  return Math.min(320, Math.max(0, ...widths)) + GAP;
}

function asideWidth(words: readonly StageWords[]): number {
  const widths = words.flatMap(asideLines).map((line) => textWidth(line, { size: SMALL }));
  return Math.min(250, Math.max(0, ...widths)) + 8;
}
