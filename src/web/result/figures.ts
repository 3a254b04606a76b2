import { formatNumber, formatQuantity, THIN_SPACE } from '../../core/quantity/print.ts';
import type { Percent } from '../../core/report/yield/result.ts';
import { massText, percentText } from '../../core/report/yield/sentence.ts';

export type DecimalSign = '.' | ',';

/** A sentence of the core with the decimal sign of this laboratory. A step "3.1" has no figure behind. */
export function inDecimals(text: string, sign: DecimalSign): string {
  return sign === '.' ? text : text.replace(/(?<=\d)\.(?=\d)/g, ',');
}

/** Numbers as the page writes them. */
export interface Figures {
  readonly decimal: DecimalSign;
  readonly said: (text: string) => string;
  /** With as many decimals as were read. */
  readonly mass: (mass_g: number, lastDigit_g: number) => string;
  readonly grams: (mass_g: number, digits?: number) => string;
  readonly millimoles: (amount_mmol: number, digits?: number) => string;
  /** "78.6 ± 0.5 %" */
  readonly percent: (percent: Percent) => string;
  readonly plainPercent: (percent: number, decimals: number) => string;
}

export function figuresIn(decimal: DecimalSign): Figures {
  const said = (text: string) => inDecimals(text, decimal);
  return {
    decimal,
    said,
    mass: (mass_g, lastDigit_g) => said(massText(mass_g, lastDigit_g)),
    grams: (mass_g, digits = 4) => formatQuantity(mass_g, 'mass', digits, { decimal }),
    millimoles: (amount_mmol, digits = 3) =>
      `${formatNumber(amount_mmol, digits, { decimal })}${THIN_SPACE}mmol`,
    percent: (percent) => `${said(percentText(percent))}${THIN_SPACE}%`,
    plainPercent: (percent, decimals) =>
      `${said(percent.toFixed(decimals).replace('-', '−'))}${THIN_SPACE}%`,
  };
}

/** "39 %"; one decimal where a share is small, "under 0.1 %" where nothing would be left. */
export function shareText(share: number, { plainPercent }: Figures): string {
  const percent = 100 * share;
  if (percent < 0.1) return `under ${plainPercent(0.1, 1)}`;
  return plainPercent(percent, percent < 9.95 ? 1 : 0);
}
