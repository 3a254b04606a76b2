import type { Diagnostic } from '../../diagnostic.ts';
import { formatWithUncertainty } from '../../quantity/print.ts';
import type { Agreement, Statement } from '../statement.ts';
import type { Literature, Subject, Subjects } from '../subject.ts';

/** Coverage of a comparison: values agree that differ by no more than 2 u (about 95 %, GUM 6.2). */
export const COVERAGE = 2;

/** Whether a difference is within what the two uncertainties allow. */
export function agreementOf(difference: number, u: number): Agreement {
  return Math.abs(difference) <= COVERAGE * u ? 'agrees' : 'disagrees';
}

/** A number with so many decimals, and a minus that is one. */
export function fixed(value: number, decimals: number): string {
  return value
    .toFixed(decimals)
    .replace(/^-(?=[0.]*$)/, '')
    .replace('-', '−');
}

export function degrees(value_C: number): string {
  return `${fixed(value_C, 1)} °C`;
}

/** "118.5–120.0 °C", or one value where the ends are the same. */
export function rangeText(low_C: number, high_C: number): string {
  const [low, high] = [fixed(low_C, 1), fixed(high_C, 1)];
  if (low === high) return `${high} °C`;
  return `${low}${low.startsWith('−') || high.startsWith('−') ? ' to ' : '–'}${high} °C`;
}

/** A value with twice its standard uncertainty, as everywhere in the evidence. */
export const plusMinus = (value: number, u: number): string =>
  formatWithUncertainty(value, COVERAGE * u);

/** "122.4 °C (CRC Handbook)". */
export function withSource(text: string, source: string | undefined): string {
  return `${text} (${source === undefined || source === '' ? 'source not given' : source})`;
}

export function sourceOf(literature: Literature, quantity: keyof Literature): string | undefined {
  return literature.sources?.[quantity];
}

export function implausible(code: string, message: string, hint: string): Diagnostic {
  return { code, severity: 'error', message, hint };
}

export function subjectsIn(subjects: Subjects): readonly Subject[] {
  return [...(subjects.product === undefined ? [] : [subjects.product]), ...subjects.others];
}

/** "cyclohexanol, the starting material": other substances that a measurement fits as well. */
export function othersThatFit(
  others: readonly Subject[],
  fits: (subject: Subject) => boolean,
): string {
  const ROLE: Record<Subject['role'], string> = {
    product: 'a product',
    startingMaterial: 'the starting material',
    reagent: 'a reagent',
    solvent: 'a solvent',
    byProduct: 'a by-product',
  };
  const found = others.filter(fits).slice(0, 5);
  return found.map((subject) => `${subject.substance.name}, ${ROLE[subject.role]}`).join('; ');
}

/** The statement of a measurement that nothing can be compared with. */
export function nothingExpected(
  base: Pick<Statement, 'id' | 'technique' | 'about' | 'what' | 'measured' | 'derivation'>,
  name: string | undefined,
  quantity: string,
): Statement {
  const whom = name ?? 'the product';
  return {
    ...base,
    ...(name !== undefined && { substance: name }),
    expected: '',
    agreement: 'cannotTell',
    weight: 'weak',
    says: `There is no ${quantity} of ${whom} to compare with.`,
    limits: `Enter the literature value with its source, or measure a known sample of ${whom}.`,
  };
}

/** Sentences joined, empty ones left out. */
export function sentences(...parts: readonly (string | undefined | false)[]): string {
  return parts.filter((part) => part !== undefined && part !== false && part !== '').join(' ');
}
