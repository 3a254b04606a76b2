import { formatNumber, formatQuantity, THIN_SPACE } from '../../quantity/print.ts';

const FIGURES = 3;

/** Three significant figures: what a balance and a pair of eyes can use. */
export const grams = (mass_g: number): string => formatQuantity(mass_g, 'mass', FIGURES);

/** Always in mmol, so that the numbers of a page can be compared. */
export const millimoles = (amount_mmol: number): string =>
  `${formatNumber(amount_mmol, FIGURES)}${THIN_SPACE}mmol`;

/** "ether, water and ethanol" */
export function listed(words: readonly string[], and = 'and'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${and} ${words.at(-1)}`;
}

/** "step 3", "steps 3, 4b and 6" */
export function stepsSaid(steps: readonly string[]): string {
  return `${steps.length === 1 ? 'step' : 'steps'} ${listed(steps)}`;
}
