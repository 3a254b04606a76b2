import type { Posting } from './posting.ts';

/** One line a posting, for reading and for golden files: step, accounts, substance, mmol, g, basis. */
export function listing(postings: readonly Posting[]): string {
  return postings
    .map((p) => {
      const amount = p.amount_mmol === 0 ? '-' : `${p.amount_mmol.toFixed(3)} mmol`;
      const route = `${p.from} -> ${p.to}`;
      return `${p.step}  ${route}  ${p.substance}  ${amount}  ${p.mass_g.toFixed(4)} g  ${p.basis}`;
    })
    .join('\n');
}
