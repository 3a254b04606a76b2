import { describe, expect, it } from 'vitest';
import { inTerms } from './terms.ts';

describe('terms of the trade', () => {
  it.each([
    ['Recrystallise the solid', 'Recrystallize the solid'],
    ['the separating funnels', 'the separatory funnels'],
    ['Distil the flask', 'Distill the flask'],
    ['it is recrystallised', 'it is recrystallized'],
    ['into the conical flask', 'into the Erlenmeyer flask'],
    ['a burette of 50 mL', 'a buret of 50 mL'],
  ])('%s / %s', (uk, us) => {
    expect(inTerms(uk, 'us')).toBe(us);
    expect(inTerms(us, 'uk')).toBe(uk);
    expect(inTerms(uk, 'uk')).toBe(uk);
    expect(inTerms(us, 'us')).toBe(us);
  });

  it('leaves alone what both write alike', () => {
    const text = 'distilled water, distillation, a pipette, sulfur';
    expect(inTerms(text, 'us')).toBe(text);
    expect(inTerms(text, 'uk')).toBe(text);
  });
});
