import { describe, expect, it } from 'vitest';
import { vesselsAt } from '../../../core/report/glass/glass.ts';
import { enacted } from '../enacted.ts';
import { glassPatterns, glassPictures } from './glass-pictures.ts';

const TEXT = `# T

## Vessels

- flask: 50 mL round-bottom flask
- funnel: 125 mL separatory funnel

## Procedure

1. Charge the flask with ethanol 10 mL.
2. Charge the funnel with diethyl ether 20 mL and water 20 mL.
`;

const { experiment, plan } = enacted(TEXT);
const states = vesselsAt(experiment, plan, '2');
const pictures = glassPictures(states);

describe('the glass of a step', () => {
  it('draws every vessel that holds something, the larger one larger', () => {
    expect([...pictures.keys()]).toEqual(['flask', 'funnel']);
    expect(pictures.get('funnel')!.height).toBeGreaterThan(pictures.get('flask')!.height);
  });

  it('shows the layers by patterns that are there', () => {
    const used = [...pictures.values()].flatMap(({ svg }) =>
      [...svg.matchAll(/url\(#([\w-]+)\)/g)].map((match) => match[1]!),
    );
    expect(new Set(used)).toEqual(new Set(['glass-organic', 'glass-aqueous']));
    for (const id of used) expect(glassPatterns()).toContain(`id="${id}"`);
  });
});
