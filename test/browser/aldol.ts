/** An experiment of the tests' own, and what comes of it by pencil and paper. */
export const TITLE = 'Dibenzalacetone: an aldol condensation, twice';

export const ALDOL = `# ${TITLE}

Course: Practical Organic Chemistry 1, Sallowfield College

## Reaction
2 benzaldehyde + acetone -> dibenzalacetone + 2 water

## Vessels
- flask: 100 mL conical flask
- dish: watch glass, tared

## Procedure
1. Charge the flask with 2 M sodium hydroxide solution 25 mL and ethanol 20 mL.
2. Cool the flask in water to 20 °C.
3. Add benzaldehyde 2.12 g and acetone 0.58 g to the flask over 5 min.
4. Stir the flask at 20 °C for 30 min.
5. Filter the flask under vacuum; keep the solid.
6. Wash the solid with cold water 3 × 10 mL.
7. Discard the filtrate to the aqueous waste.
8. Tare the dish.
9. Transfer the solid to the dish.
10. Dry the dish in air for 60 min.
11. Weigh the dish.

## Product
dibenzalacetone
`;

// Standard atomic weights, abridged to five figures: CIAAW 2021.
const C = 12.011;
const H = 1.008;
const O = 15.999;
const BENZALDEHYDE = 7 * C + 6 * H + O;
const ACETONE = 3 * C + 6 * H + O;
const DIBENZALACETONE = 17 * C + 14 * H + O;

/** Theory in grams, of what was charged of both; two of benzaldehyde go with one of acetone. */
export function theory_g(benzaldehyde_g: number, acetone_g: number): number {
  return Math.min(benzaldehyde_g / BENZALDEHYDE / 2, acetone_g / ACETONE) * DIBENZALACETONE;
}

/** What the bench writes down, a slip in the last weighing included. */
export const BENCH = {
  benzaldehyde_g: '2.098',
  acetone_g: '0.612',
  tare_g: '21.437',
  grossMisread_g: '23.721',
  gross_g: '23.271',
} as const;

/** Of the product, in per cent of theory. */
export function yield_percent(): number {
  const net_g = Number(BENCH.gross_g) - Number(BENCH.tare_g);
  return (100 * net_g) / theory_g(Number(BENCH.benzaldehyde_g), Number(BENCH.acetone_g));
}
