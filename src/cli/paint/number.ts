import type { Basis } from '../../core/ledger/posting.ts';
import type { Ink, Paper } from './ink.ts';

/**
 * How a number is known is never shown by colour alone: a tilde before what is assumed, a dot before
 * what was measured, nothing before what the document plans.
 */
const MARKS: Record<Basis, string> = { planned: '', measured: '•', assumed: '~' };

export function marked(text: string, basis: Basis): string {
  return text === '' ? '' : `${MARKS[basis]}${text}`;
}

export function setBy(basis: Basis, ink: Ink): (text: string) => string {
  const sets: Record<Basis, (text: string) => string> = {
    planned: (text) => text,
    measured: ink.inked,
    assumed: ink.italic,
  };
  // Padding is left bare: an underline would run on into the empty part of the column.
  return (text) => text.replace(/\S(.*\S)?/, (core) => sets[basis](core));
}

/** The key to the marks, once a page and only where one was used. */
export function legend(used: Iterable<Basis>, { ink }: Paper): string {
  const bases = new Set(used);
  const keys: string[] = [];
  if (bases.has('measured')) keys.push(`${setBy('measured', ink)('•1.12 g')} measured`);
  if (bases.has('assumed')) keys.push(`${setBy('assumed', ink)('~1.12 g')} assumed`);
  if (keys.length === 0) return '';
  return ink.faint('Key: ') + ['1.12 g planned', ...keys].join(' · ');
}

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'];

/** A share from 0 to 1 as a bar; whatever is more than nothing is seen. */
export function bar(share: number, width: number): string {
  if (!(share > 0)) return '';
  const eighths = Math.max(1, Math.round(Math.min(1, share) * width * 8));
  return '█'.repeat(eighths >> 3) + EIGHTHS[eighths & 7]!;
}
