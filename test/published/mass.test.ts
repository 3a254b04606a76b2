import { describe, expect, test } from 'vitest';
import published from './mass.json' with { type: 'json' };
import { elementOf } from '../../src/core/chemistry/element.ts';
import { readFormula } from '../../src/core/chemistry/formula.ts';
import { makeSubstance } from '../../src/core/chemistry/substance.ts';
import type { SubstanceFacts } from '../../src/core/chemistry/substance.ts';
import { expectedIons } from '../../src/core/evidence/mass/ions.ts';
import { isotopePattern, isotopesOf } from '../../src/core/evidence/mass/isotopes.ts';
import { judgeMass } from '../../src/core/evidence/mass/judge.ts';
import type { Ionisation } from '../../src/core/evidence/mass/schema.ts';
import isotopesTable from '../../src/core/facts/isotope_abundances.json' with { type: 'json' };
import { rowsOf } from '../../src/core/facts/table.ts';

const substanceOf = (facts: SubstanceFacts) => {
  const made = makeSubstance(facts);
  if (!made.ok) throw new Error(made.message);
  return made.substance;
};

describe('isotope patterns', () => {
  test.each(published.patterns)('$name ($source)', ({ formula, peaks, slack }) => {
    const reading = readFormula(formula);
    const pattern = reading.ok ? isotopePattern(reading.composition) : [];
    for (const [above, percent] of peaks) {
      const own = 100 * (pattern.find((peak) => peak.above === above)?.ratio ?? 0);
      expect(Math.abs(own - percent!), `M + ${above}: ${own}`).toBeLessThanOrEqual(slack);
    }
  });

  // The abundances and masses were typed apart from the standard atomic weights (CIAAW 2021).
  test('give the standard atomic weights', () => {
    const symbols = [...new Set(rowsOf(isotopesTable).map((row) => row['symbol']!))];
    expect(symbols.length).toBeGreaterThan(25);
    for (const symbol of symbols) {
      const isotopes = isotopesOf(symbol)!;
      const total = isotopes.reduce((sum, one) => sum + one.abundance, 0);
      const mean = isotopes.reduce((sum, one) => sum + one.abundance * one.mass, 0);
      const weight = elementOf(symbol)!.weight!;
      expect(Math.abs(total - 1), symbol).toBeLessThan(5e-5);
      // Nature varies: lithium, boron, sulfur and selenium the most.
      expect(Math.abs(mean / weight - 1), symbol).toBeLessThan(1e-3);
    }
  });
});

test.each(published.ions)('$name $label at m/z $mz ($source)', (one) => {
  const { name, formula, ionisation, label, mz } = one;
  const ions = expectedIons(substanceOf({ name, formula }), ionisation as Ionisation);
  expect(ions.find((ion) => ion.label === label)?.exact).toBeCloseTo(mz, 3);
});

test.each(published.spectra)(
  '$name ($source)',
  ({ name, smiles, peaks, nominal, base, ion, loss }) => {
    const substance = substanceOf({ name, smiles });
    const { statements } = judgeMass(
      {
        technique: 'mass',
        ionisation: 'EI',
        peaks: peaks.map(([mz, intensity]) => ({ mz: mz!, intensity: intensity! })),
      },
      { product: { role: 'product', substance, literature: {} }, others: [] },
    );
    const byId = (id: string) => statements.find((one) => one.id === id);
    expect(expectedIons(substance, 'EI')[0]!.nominal).toBe(nominal);
    expect(byId('mass-ion')?.agreement).toBe(ion);
    expect(byId('mass-fragments')?.measured).toContain(`base peak m/z ${base}`);
    const lines = byId('mass-fragments')?.derivation ?? [];
    if (loss !== undefined) expect(lines.some((l) => l.value.includes(`M − ${loss}`))).toBe(true);
  },
);
