// @vitest-environment jsdom
import { describe, expect, it } from 'vitest';
import { enacted } from '../enacted.ts';
import { picturesIn, schemeKey } from './pictures.ts';

const svg = (inner: string, more = '') =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"${more}>${inner}</svg>`;

describe('drawings of reactions', () => {
  it('parts several, and keeps one whole', () => {
    const one = svg('<path d="M0 0"/>', ' color="#000" role="img" aria-label="A -&gt; B"');
    expect(picturesIn(one)).toHaveLength(1);
    expect(picturesIn(one)[0]).not.toContain('color=');
    const two = svg(svg('<path d="M1 1"/>', ' y="0"') + svg('<path d="M2 2"/>', ' y="20"'));
    expect(picturesIn(two).map((part) => /M\d/.exec(part)?.[0])).toEqual(['M1', 'M2']);
  });

  it('makes nothing of what is no drawing', () => {
    expect(picturesIn('<p>no</p>')).toEqual([]);
    expect(picturesIn('<svg')).toEqual([]);
  });

  const text = `# T

## Reaction

sodium benzoate + HCl -> benzoic acid + NaCl

## Procedure

1. Charge the flask with sodium benzoate 1.44 g and water 20 mL.
`;
  const key = (of: string) => schemeKey(enacted(of));

  it.each([
    ['an amount of a reactant', '1.44 g', '1.45 g', true],
    ['the equation', 'sodium benzoate + HCl', '2 sodium benzoate + HCl', true],
    ['the title', '# T', '# Title', false],
    ['an amount of a solvent', '20 mL', '30 mL', false],
  ])('is drawn again after a change of %s', (_, from, to, again) => {
    expect(key(text.replace(from, to)) !== key(text)).toBe(again);
  });
});
