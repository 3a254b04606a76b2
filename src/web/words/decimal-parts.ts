import { withDecimal } from './decimal.ts';

/** The words of a drawing with the laboratory's decimal sign; its lines and places as they are. */
export function drawnWithDecimal(svg: string, sign: '.' | ','): string {
  if (sign === '.') return svg;
  return svg.replace(/>[^<]+<|aria-label="[^"]*"/g, (words) => withDecimal(words, sign));
}
