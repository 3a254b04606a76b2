import { describe, expect, it } from 'vitest';
import { readFormula } from '../chemistry/formula.ts';
import { molarMass } from '../chemistry/molar-mass.ts';
import { builtInSubstances } from '../chemistry/substance.ts';
import dryingTable from '../facts/drying_agents.json' with { type: 'json' };
import timeTable from '../facts/step_times.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import type { VerbKind } from '../experiment/verbs/kind.ts';
import { DISSOLVED_GAS_DENSITY_G_ML, DRYING_CAPACITY_G_G, SALT_SOLVENTS } from './rules.ts';

const known = new Set(builtInSubstances().map((s) => s.id));

describe('tables that the kernel goes by', () => {
  it('name only substances that are known', () => {
    const named = [
      ...DRYING_CAPACITY_G_G.keys(),
      ...DISSOLVED_GAS_DENSITY_G_ML.keys(),
      ...SALT_SOLVENTS,
    ];
    expect(named.filter((id) => !known.has(id))).toEqual([]);
  });

  it.each(rowsOf(dryingTable).filter((row) => row['highest_hydrate'] !== ''))(
    'capacity of $agent is the water of its highest hydrate',
    (row) => {
      const [dry, hydrate] = row['highest_hydrate']!.split('·');
      const count = Number(hydrate!.replace('H2O', '') || 1);
      const mass = (formula: string) => {
        const read = readFormula(formula);
        if (!read.ok) throw new Error(read.message);
        return molarMass(read.composition).value_g_mol;
      };
      expect(Number(row['capacity_g_g'])).toBeCloseTo((count * mass('H2O')) / mass(dry!), 2);
    },
  );

  it('know the usual time of every verb', () => {
    const every: Record<VerbKind, true> = {
      weighOut: true,
      charge: true,
      add: true,
      rinse: true,
      stir: true,
      heat: true,
      reflux: true,
      cool: true,
      hold: true,
      activate: true,
      blanket: true,
      bubble: true,
      quench: true,
      filter: true,
      washSolid: true,
      transfer: true,
      extract: true,
      separate: true,
      washLayer: true,
      combine: true,
      backExtract: true,
      dry: true,
      decant: true,
      evaporate: true,
      recrystallise: true,
      distil: true,
      sublime: true,
      tare: true,
      weigh: true,
      airDry: true,
      meltingRange: true,
      spectrum: true,
      tlc: true,
      discard: true,
      takePlace: true,
    };
    const timed = new Set(rowsOf(timeTable).map((row) => row['verb']));
    expect(Object.keys(every).filter((verb) => !timed.has(verb))).toEqual([]);
  });
});
