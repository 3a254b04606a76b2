import { numberText } from './typed-number.ts';
import type { DecimalSign } from './typed-number.ts';

/** What the sheet expects of a number. */
export interface Expected {
  readonly planned?: { readonly value: number };
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
}

/** From here on the plan is named as a multiple: it is a slip of the decimal sign, or of the unit. */
const FAR_OFF = 4;

/** What is doubtful in a number that lies outside what the sheet expects; never a refusal. */
export function doubtAbout(
  value: number,
  { planned, low, high, unit }: Expected,
  sign: DecimalSign,
): string | undefined {
  const below = low !== undefined && value < low;
  const above = high !== undefined && value > high;
  if (!below && !above) return undefined;
  // On the Celsius scale a multiple means nothing.
  const whole = unit === '°C' ? 0 : (planned?.value ?? 0);
  const ratio = whole === 0 ? 0 : value / whole;
  if (ratio >= FAR_OFF) return `${times(ratio, sign)} times the plan.`;
  if (ratio > 0 && ratio <= 1 / FAR_OFF) return `1/${times(1 / ratio, sign)} of the plan.`;
  const bound = numberText({ value: below ? low : high! }, sign);
  const word = below ? 'Less than the least' : 'More than the most';
  return `${word} that is expected, ${bound}\u202f${unit}.`;
}

function times(ratio: number, sign: DecimalSign): string {
  return numberText({ value: Number(ratio.toPrecision(2)) }, sign);
}

/** What a full vessel leaves when its tare is taken off. */
export interface ExpectedNet {
  readonly tare_g: number;
  readonly low_g: number;
  readonly high_g: number;
}

/** What is doubtful in what a vessel would then hold. */
export function doubtAboutNet(
  gross_g: number,
  { tare_g, low_g, high_g }: ExpectedNet,
  sign: DecimalSign,
): string | undefined {
  const net_g = lessTare(gross_g, tare_g);
  const text = (value: number) => `${numberText({ value }, sign)}\u202fg`;
  if (net_g < 0) return `Less than the empty vessel, ${text(tare_g)}.`;
  if (net_g < low_g) return `That leaves ${text(net_g)}.`;
  if (net_g > high_g)
    return `That leaves ${text(net_g)}; at most ${text(rounded(high_g))} is expected.`;
  return undefined;
}

/** Without what only the binary form of the readings shows. */
export function lessTare(gross_g: number, tare_g: number): number {
  return Number((gross_g - tare_g).toFixed(9));
}

const rounded = (value: number): number => Number(value.toPrecision(3));
