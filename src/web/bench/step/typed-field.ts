import { lessTare, doubtAbout, doubtAboutNet } from '../typed/plausible.ts';
import type { DecimalSign, TypedNumber } from '../typed/typed-number.ts';
import { inSign, numberOf, numberText } from '../typed/typed-number.ts';
import type { Readings } from '../record/new-entry.ts';
import type { BenchField, Measure } from '../sheet.ts';

/** The draft of a field: what stands in its one or two lines, and the unit where there is a choice. */
export interface FieldDraft {
  readonly texts: readonly string[];
  /** The other measure of the field was chosen. */
  readonly other: boolean;
}

const MARK = '|';

export function draftOf(text: string, slots: number): FieldDraft {
  const other = text.startsWith('~');
  const parts = (other ? text.slice(1) : text).split(MARK);
  return { other, texts: Array.from({ length: slots }, (_, i) => parts[i] ?? '') };
}

export function draftText({ texts, other }: FieldDraft): string {
  const text = texts.some((each) => each !== '') ? texts.join(MARK) : '';
  return other ? `~${text}` : text;
}

/** The field as it is filled: by mass where it could be by volume too, or the other way round. */
export function measuredBy(field: BenchField, other: boolean): BenchField & Measure {
  if (!other || field.or === undefined) return field;
  const { planned: _planned, low: _low, high: _high, or, ...rest } = field;
  return { ...rest, ...or };
}

/** What is meant to be reached, or not to be passed. */
export function planText({ planned }: Measure, sign: DecimalSign): string {
  if (planned === undefined) return '';
  const text = inSign(planned.text, sign);
  return planned.limit ? text : `plan ${text}`;
}

/** Undefined until there is a number in each line. */
export function readingsOf(texts: readonly string[], sign: DecimalSign): Readings | undefined {
  const [first, second] = texts.map((text) => numberOf(text, sign));
  if (first === undefined) return undefined;
  if (texts.length === 1) return first;
  if (second === undefined) return undefined;
  const decimals = Math.max(first.decimals ?? 0, second.decimals ?? 0);
  const [low, high] = first.value <= second.value ? [first, second] : [second, first];
  return { value: low.value, high: high.value, ...(decimals > 0 && { decimals }) };
}

/** The tare that a full vessel is read against, in g. */
export type Tare = TypedNumber | undefined;

/** What is doubtful in a number; undefined where nothing is. */
export function doubtOf(
  readings: Readings,
  field: BenchField,
  tare: Tare,
  sign: DecimalSign,
): string | undefined {
  const about =
    doubtAbout(readings.value, field, sign) ??
    (readings.high === undefined ? undefined : doubtAbout(readings.high, field, sign));
  if (about !== undefined || field.net === undefined || tare === undefined) return about;
  return doubtAboutNet(readings.value, { tare_g: tare.value, ...field.net }, sign);
}

/** What is in the vessel, with as many decimals as the two weighings have. */
export function netText(gross: TypedNumber, tare: Tare, sign: DecimalSign): string | undefined {
  if (tare === undefined) return undefined;
  const net = lessTare(gross.value, tare.value);
  if (net < 0) return undefined;
  const decimals = Math.max(decimalsOf(gross), decimalsOf(tare));
  return `${numberText({ value: net, decimals }, sign)}\u202fg`;
}

function decimalsOf({ value, decimals = 0 }: TypedNumber): number {
  return Math.max(decimals, numberText({ value }, '.').split('.')[1]?.length ?? 0);
}
