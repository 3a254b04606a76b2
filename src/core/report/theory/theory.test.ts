import { describe, expect, it } from 'vitest';
import * as f from '../../enact/fixture.ts';
import type { Enactment } from '../../enact/enactment.ts';
import type { Move } from '../../experiment/move.ts';
import type { Experiment, MaterialUse, ReactionDeclaration } from '../../experiment/step.ts';
import { experiment, step } from '../../record/testing/toy.ts';
import { course } from '../testing/course.ts';
import { twoStages } from '../testing/courses.ts';
import { theoryReport } from './theory.ts';
import type { TheoryReport } from './theory.ts';

/** Each portion is charged and stirred in the flask, one step after the other. */
function pot(
  reactions: readonly ReactionDeclaration[],
  products: readonly string[],
  portions: readonly (readonly MaterialUse[])[],
  more: Partial<Experiment> = {},
): { readonly document: Experiment; readonly found: Enactment; readonly theory: TheoryReport } {
  const steps = portions.map((materials, i) =>
    step(String(i + 1), 'charge', { materials, into: 'flask' }),
  );
  const moves: Record<string, Move[]> = {};
  portions.forEach((materials, i) => {
    moves[String(i + 1)] = [
      ...materials.map((use) => f.charge(use, 'flask')),
      f.stir('flask'),
      f.react('flask'),
    ];
  });
  const document = experiment(
    reactions,
    steps,
    products.map((each) => f.substance(each)),
    more,
  );
  const found = course(document, moves).plan;
  return { document, found, theory: theoryReport(document, found) };
}

const REDUCTION = '4 4-methylcyclohexanone + NaBH4 + 4 H2O -> 4 4-methylcyclohexanol + NaB(OH)4';

describe('theory', () => {
  it('divides by coefficients before it looks for the least', () => {
    // ketone 1.12 g / 112.172 = 9.985 mmol, /4 = 2.496; borohydride 0.150 g / 37.83 = 3.965 mmol
    const { theory } = pot(
      [f.reaction(REDUCTION)],
      ['4-methylcyclohexanol'],
      [
        [
          f.use('4-methylcyclohexanone', '1.12 g'),
          f.use('sodium borohydride', '0.150 g'),
          f.use('water', '10 mL'),
        ],
      ],
    );
    const [reduction] = theory.reactions;
    expect(reduction!.limiting!.name).toBe('4-methylcyclohexanone');
    expect(reduction!.extent_mmol).toBeCloseTo(2.4962, 3);
    const borohydride = reduction!.reactants.find((each) => each.name === 'sodium borohydride')!;
    // excess: 3.965 / 2.496 - 1 = 58.8 %
    expect(borohydride.excess_percent).toBeCloseTo(58.8, 0);
    expect(borohydride.left_mmol).toBeCloseTo(1.469, 2);
    const [alcohol] = theory.products;
    // 9.985 mmol of 114.188 g/mol
    expect(alcohol).toMatchObject({ role: 'product', name: '4-methylcyclohexanol' });
    expect(alcohol!.mass_g).toBeCloseTo(1.1401, 3);
    expect(theory.said).toEqual([]);
  });

  it('follows an intermediate that limits up to what was charged', () => {
    const { experiment: document, plan } = twoStages();
    const [, ester] = theoryReport(document, plan).reactions;
    expect(ester!.limiting!.name).toBe('benzoic acid');
    // 1.44 g / 144.105 g/mol
    expect(ester!.limitingCharged!.name).toBe('sodium benzoate');
    expect(ester!.limitingCharged!.amount_mmol).toBeCloseTo(9.993, 3);
    const weighed = new Set([ester!.limiting!.substance]);
    const later = theoryReport(document, plan, { weighed }).reactions[1]!;
    expect(later.limitingCharged!.name).toBe('benzoic acid');
  });

  it('counts what comes in portions once', () => {
    const { theory, found } = pot(
      [f.reaction('benzoic acid + methanol -> methyl benzoate + water')],
      ['methyl benzoate'],
      [
        [f.use('benzoic acid', '1.22123 g'), f.use('methanol', '4.0 mmol')],
        [f.use('methanol', '3.0 mmol')],
        [f.use('benzoic acid', '0.122123 g')],
      ],
    );
    expect(found.reactions.length).toBeGreaterThan(1);
    // 7.0 mmol of methanol in all. The last acid comes when that is used up, and reacts with none.
    expect(theory.reactions[0]!.reactants.map((each) => each.amount_mmol!)).toMatchObject([
      expect.closeTo(10, 3),
      expect.closeTo(7, 6),
    ]);
    expect(theory.products[0]!.amount_mmol).toBeCloseTo(7, 6);
  });

  it('does not count again what left-over alkali turned back', () => {
    const { theory, found } = pot(
      [
        f.reaction('methyl benzoate + NaOH -> sodium benzoate + methanol', { id: 'ester' }),
        f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl', { id: 'acid' }),
      ],
      ['benzoic acid'],
      [
        [f.use('methyl benzoate', '2.723 g'), f.use('2 M sodium hydroxide solution', '20 mL')],
        [f.use('3 M hydrochloric acid', '15 mL')],
        [f.use('water', '5 mL')],
      ],
    );
    expect(
      found.reactions.map(({ reaction }) => reaction).filter((id) => id === 'acid'),
    ).toHaveLength(2);
    // 2.723 g / 136.150 g/mol = 20.00 mmol, and no more acid than that
    expect(theory.products[0]!.amount_mmol).toBeCloseTo(20, 2);
    // 45 mmol of acid, of which the 20 mmol of alkali left over take theirs
    const [, acid] = theory.reactions[1]!.reactants;
    expect(acid!.amount_mmol).toBeCloseTo(25, 1);
  });

  it('is counted at full conversion, through the steps', () => {
    const { theory } = pot(
      [
        f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl', { id: 'acid', conversion: 0.8 }),
        f.reaction('benzoic acid + methanol -> methyl benzoate + water', {
          id: 'ester',
          conversion: 0.5,
        }),
      ],
      ['methyl benzoate'],
      [
        [f.use('sodium benzoate', '1.44105 g'), f.use('2 M hydrochloric acid', '10 mL')],
        [f.use('methanol', '10 mL')],
      ],
    );
    // 10.0 mmol of benzoate: 10.0 mmol of ester if all went well, whatever is expected
    expect(theory.products[0]!.amount_mmol).toBeCloseTo(10, 3);
    expect(theory.products[0]!.basis!.name).toBe('sodium benzoate');
    expect(theory.products.map((each) => each.role)).toContain('intermediate');
    expect(theory.said.join(' ')).toMatch(/full conversion; the document gives acid 80 %/);
  });

  it('lets the document choose another basis', () => {
    const { theory } = pot(
      [f.reaction(REDUCTION, { basis: f.substance('sodium borohydride').id })],
      ['4-methylcyclohexanol'],
      [
        [
          f.use('4-methylcyclohexanone', '10 mmol'),
          f.use('sodium borohydride', '4 mmol'),
          f.use('water', '10 mL'),
        ],
      ],
    );
    expect(theory.products[0]!.amount_mmol).toBeCloseTo(16, 6);
    expect(theory.reactions[0]!.limiting!.name).toBe('4-methylcyclohexanone');
    expect(theory.said.join(' ')).toMatch(/counted on sodium borohydride, as the document says/);
  });

  it('counts two ways for one reactant each as if it were the only one', () => {
    const { theory } = pot(
      [
        f.reaction('toluene + HNO3 -> 2-nitrotoluene + H2O', { id: 'ortho', conversion: 0.6 }),
        f.reaction('toluene + HNO3 -> 4-nitrotoluene + H2O', { id: 'para', conversion: 0.4 }),
      ],
      ['2-nitrotoluene', '4-nitrotoluene'],
      [[f.use('toluene', '10 mmol'), f.use('nitric acid', '12 mmol')]],
    );
    expect(theory.products.slice(0, 2).map((each) => each.amount_mmol)).toMatchObject([
      expect.closeTo(10, 6),
      expect.closeTo(10, 6),
    ]);
  });

  it('falls back on what was charged where a reaction never ran', () => {
    const { theory } = pot(
      [
        f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl', { id: 'acid' }),
        f.reaction('benzoic acid + methanol -> methyl benzoate + water', { id: 'ester' }),
      ],
      ['methyl benzoate'],
      [[f.use('sodium benzoate', '1.44105 g')]],
    );
    expect(theory.reactions[0]!.ran).toBe(false);
    expect(theory.said.join(' ')).toMatch(/^Acid does not run in this procedure/);
    expect(theory.reactions[0]!.reactants[0]!.amount_mmol).toBeCloseTo(10, 3);
    expect(theory.reactions[0]!.limiting!.name).toBe('hydrogen chloride');
  });

  it('follows reactions that never ran from one to the next', () => {
    const { theory } = pot(
      [
        f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl', { id: 'acid' }),
        f.reaction('benzoic acid + methanol -> methyl benzoate + water', { id: 'ester' }),
      ],
      ['methyl benzoate'],
      [],
    );
    expect(theory.products[0]!.amount_mmol).toBe(0);
  });

  it('counts a product that is only separated on what was charged of it', () => {
    const { theory } = pot([], ['benzoic acid'], [[f.use('benzoic acid', '1.00 g')]]);
    expect(theory.reactions).toMatchObject([{ kind: 'recovery', ran: true }]);
    expect(theory.products[0]!.mass_g).toBeCloseTo(1, 6);
  });

  it('says when nothing limits', () => {
    const { theory } = pot(
      [f.reaction('benzoic acid + methanol -> methyl benzoate + water')],
      ['methyl benzoate'],
      [[f.use('benzoic acid', 'excess'), f.use('methanol', 'excess')]],
    );
    expect(theory.said.join(' ')).toMatch(/none can limit it/);
    expect(theory.reactions[0]!.reactants[0]!.amount_mmol).toBeNull();
    expect(JSON.parse(JSON.stringify(theory))).toEqual(theory);
  });
});
