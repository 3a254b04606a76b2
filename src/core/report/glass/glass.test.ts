import { describe, expect, it } from 'vitest';
import { exampleFolders, openExample } from '../../../../test/example-folder.ts';
import { enact } from '../../enact/enact.ts';
import { vesselAt, vesselsAt } from './glass.ts';

const examples = exampleFolders().map(openExample);

describe.each(examples)('$folder', ({ experiment, plan }) => {
  it('every vessel holds after each step what the trace has, and no more than one answer', () => {
    for (const { step, vessels } of plan.trace) {
      const alive = vesselsAt(experiment, plan, step);
      expect(JSON.parse(JSON.stringify(alive))).toEqual(alive);
      for (const state of vessels) {
        const glass = vesselAt(experiment, plan, step, state.vessel)!;
        expect(glass.touched).toBe(true);
        expect(glass.mass_g).toBe(state.mass_g);
        expect(glass.phases.map((each) => each.phase)).toEqual(
          state.phases.map((each) => each.phase),
        );
        for (const phase of glass.phases) {
          const sum_g = phase.contents.reduce((sum, each) => sum + each.mass_g, 0);
          expect(sum_g).toBeCloseTo(phase.mass_g, 9);
        }
      }
      for (const glass of alive)
        expect(vesselAt(experiment, plan, step, glass.vessel)).toEqual(glass);
    }
  });

  it('at the end the vessels hold what the ledger says', () => {
    const last = plan.trace.at(-1)!.step;
    const mass_g = new Map(
      vesselsAt(experiment, plan, last).map((each) => [each.vessel, each.mass_g]),
    );
    for (const state of plan.final)
      if (state.mass_g > 1e-9) expect(mass_g.get(state.vessel)).toBeCloseTo(state.mass_g, 9);
  });
});

describe('a reaction flask', () => {
  const { experiment, plan, program, table } = openExample('cyclohexanol');

  it('holds what was charged, as planned, with its volumes and its fill', () => {
    const flask = vesselAt(experiment, plan, '1', 'flask')!;
    expect(flask).toMatchObject({ shape: 'round-bottom flask', capacity_mL: 50, touched: true });
    expect(flask.fill).toBeCloseTo(flask.volume_mL / 50, 12);
    const contents = flask.phases.flatMap((phase) => phase.contents);
    const ketone = contents.find((each) => each.name === '4-methylcyclohexanone')!;
    expect(ketone).toMatchObject({ mass_g: 1.12, basis: 'planned' });
    expect(ketone.amount_mmol).toBeCloseTo(9.985, 3);
    // 1.12 g / 0.914 g/mL
    expect(ketone.volume_mL).toBeCloseTo(1.12 / ketoneDensity(), 6);
  });

  function ketoneDensity(): number {
    return [...plan.substances.values()].find(({ name }) => name === '4-methylcyclohexanone')!
      .density_g_mL!;
  }

  it('stays what it was where a step did not touch it, and is not there before it is used', () => {
    expect(vesselAt(experiment, plan, '1', 'funnel')).toBeUndefined();
    const before = vesselAt(experiment, plan, '13', 'extracts flask')!;
    const during = vesselAt(experiment, plan, '15', 'extracts flask')!;
    expect(during.touched).toBe(false);
    expect(during.mass_g).toBeGreaterThan(before.mass_g);
    const names = (step: string) => vesselsAt(experiment, plan, step).map((each) => each.name);
    expect(names('1')).toEqual(['flask']);
    expect(names('21')).not.toContain('flask');
    expect(vesselAt(experiment, plan, '99', 'flask')).toBeUndefined();
  });

  it('wears what a bench measured', () => {
    const charges = new Map([['1.1', { mass_g: 1.124 }]]);
    const run = enact(program, table, undefined, { charges, nets: new Map() });
    const [phase] = vesselAt(experiment, run, '1', 'flask')!.phases;
    const basis = Object.fromEntries(phase!.contents.map((each) => [each.name, each.basis]));
    expect(basis['4-methylcyclohexanone']).toBe('measured');
    expect(basis['ethanol']).not.toBe('measured');
    const [later] = vesselAt(experiment, run, '16', 'product flask')!.phases;
    const product = later!.contents.find((each) => each.name === '4-methylcyclohexanol')!;
    expect(product.basis).toBe('assumed');
  });
});
