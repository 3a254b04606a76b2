import type { SegmentKind } from '../../core/report/balance/balance.ts';
import type { BalanceCourse, CourseStage } from '../../core/report/result/course.ts';
import { THIN_SPACE } from '../../core/quantity/print.ts';
import type { WeighingKind } from '../../core/report/yield/weighings.ts';

export interface BarWording {
  /** The product. */
  readonly name: string;
  /** It was charged and only got back: there is no theory, but what was charged. */
  readonly recovered: boolean;
  readonly decimal: '.' | ',';
}

/** What stands beside one stage of the bar. */
export interface StageWords {
  readonly label: string;
  readonly place: string;
  readonly value: string;
  readonly percent: string;
  /** Of what went since the stage before, or of what is too much. */
  readonly gone: string;
  readonly over: string;
}

const WEIGHED: Readonly<Record<WeighingKind, string>> = {
  isolated: 'Product',
  crop: 'Further crop',
  crude: 'Crude',
  earlier: 'Weighed before',
  intermediate: 'Weighed on the way',
};

const GONE: Readonly<Record<SegmentKind, (where: string) => string>> = {
  isolated: () => '',
  'used on': () => 'Used on',
  left: (where) => `Left in the ${where}`,
  lost: () => 'Missing',
  waste: (where) => `Into ${where} waste`,
  air: () => 'Into the air',
  other: (where) => where,
  'not formed': () => 'Not formed',
};

export function stageWords(
  stage: CourseStage,
  course: BalanceCourse,
  wording: BarWording,
): StageWords {
  const { kind, weighing, gone, step, vessel, gone_g, over_g } = stage;
  const total_g = stage.product_g + over_g;
  const value = `${massOf(total_g, course, wording)}`;
  const labels: Readonly<Record<CourseStage['kind'], string>> = {
    theory: wording.recovered ? 'Charged' : 'Theory',
    gone: gone === undefined ? '' : GONE[gone.kind](gone.where),
    weighed: WEIGHED[weighing ?? 'isolated'],
    due: 'Not weighed yet',
  };
  return {
    label: labels[kind],
    place: [step === null ? '' : `step ${step}`, vessel ?? ''].filter(Boolean).join(' · '),
    value: kind === 'due' ? `at most ${value}` : kind === 'gone' ? '' : value,
    percent: kind === 'weighed' ? percentOf(total_g, course, wording) : '',
    gone: gone_g > 0 ? goneWords(stage, course, wording) : '',
    over: over_g > 0 ? `of it ${massOf(over_g, course, wording)} not ${wording.name}` : '',
  };
}

function goneWords(stage: CourseStage, course: BalanceCourse, wording: BarWording): string {
  const mass = massOf(stage.gone_g, course, wording);
  const percent = percentOf(stage.gone_g, course, wording);
  const wet = stage.over_g > 0;
  const word = stage.kind === 'gone' ? '' : wet ? ' less than before' : ' missing';
  return `${mass}${word} · ${percent}`;
}

/** Every mass of one bar with the same decimals, those of the balance, so that they can be compared. */
export function massOf(mass_g: number, course: BalanceCourse, { decimal }: BarWording): string {
  const digits = course.stages
    .map(({ lastDigit_g }) => lastDigit_g ?? 0)
    .filter((each) => each > 0);
  const finest = Math.min(0.01, ...(digits.length > 0 ? digits : [finestFor(course.theory_g)]));
  const decimals = Math.min(6, Math.max(0, Math.round(-Math.log10(finest))));
  return `${mass_g.toFixed(decimals).replace('.', decimal)}${THIN_SPACE}g`;
}

const finestFor = (theory_g: number) => (theory_g < 10 ? 0.001 : 0.01);

function percentOf(mass_g: number, { theory_g }: BalanceCourse, { decimal }: BarWording): string {
  const percent = theory_g > 0 ? (100 * mass_g) / theory_g : 0;
  return `${percent.toFixed(1).replace('.', decimal)}${THIN_SPACE}%`;
}

/** What the picture shows, in a sentence: what is read where it cannot be seen. */
export function courseSentence(course: BalanceCourse, wording: BarWording): string {
  const { stages, theory_g } = course;
  const mass = (mass_g: number) => massOf(mass_g, course, wording);
  const start = wording.recovered
    ? `Of the ${mass(theory_g)} of ${wording.name} that was charged`
    : `Of the ${mass(theory_g)} of ${wording.name} that theory allows`;
  const went = stages.flatMap(({ kind, gone, gone_g, over_g, step }) => {
    if (!(gone_g > 0) || over_g > 0) return [];
    const at = step === null ? '' : ` at step ${step}`;
    if (kind === 'weighed') return [`${mass(gone_g)} was missing${at}`];
    const where = GONE[gone?.kind ?? 'other'](gone?.where ?? '');
    return [`${mass(gone_g)} was ${where.charAt(0).toLowerCase()}${where.slice(1)}${at}`];
  });
  const last = stages.findLast(({ kind }) => kind !== 'gone');
  const parts = [...went, ...endOf(last, course, wording)];
  if (went.length === 0 && last?.kind === 'due')
    return `At most ${mass(last.product_g)} of ${wording.name} is still to be weighed.`;
  const wet = wetSentence(stages, course, wording);
  return parts.length === 0 ? wet : `${start}, ${parts.join(', ')}.${wet === '' ? '' : ` ${wet}`}`;
}

function endOf(
  last: CourseStage | undefined,
  course: BalanceCourse,
  wording: BarWording,
): string[] {
  if (last === undefined || last.over_g > 0) return [];
  const mass = massOf(last.start_g + last.product_g, course, wording);
  if (last.kind === 'due') return [`at most ${mass} is still to be weighed`];
  return last.kind === 'weighed' ? [`${mass} was weighed in the end`] : [];
}

function wetSentence(
  stages: readonly CourseStage[],
  course: BalanceCourse,
  wording: BarWording,
): string {
  const wet = stages.filter(({ over_g }) => over_g > 0);
  return wet
    .map(({ step, product_g, over_g }) => {
      const total_g = product_g + over_g;
      const more_g = total_g - course.theory_g;
      const more =
        more_g > 0 ? `, ${massOf(more_g, course, wording)} more than could be there` : '';
      const over = massOf(over_g, course, wording);
      return `At step ${step} the balance showed ${massOf(total_g, course, wording)}${more}; by the ledger ${over} of it is not ${wording.name}.`;
    })
    .join(' ');
}
