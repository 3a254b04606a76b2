import { beforeAll, describe, expect, test } from 'vitest';
import published from './separation.json' with { type: 'json' };
import { makeSubstance } from '../../src/core/chemistry/substance.ts';
import { expectedOf } from '../../src/core/evidence/chemical-test/expected.ts';
import { findChemicalTest } from '../../src/core/evidence/chemical-test/table.ts';
import {
  plateNumber,
  resolution,
  retentionFactor,
} from '../../src/core/evidence/chromatogram/figures.ts';
import { CARBONS_U, effectiveCarbons } from '../../src/core/evidence/chromatogram/response.ts';
import { calibrated, excess } from '../../src/core/evidence/chromatogram/shares.ts';
import { placeSpots } from '../../src/core/evidence/thin-layer/retention.ts';
import { judgeTitration } from '../../src/core/evidence/titration/judge.ts';
import {
  equivalentMass_g_mol,
  hydroxideMass_g_mol,
  hydroxideValue_mg_g,
  reckon,
} from '../../src/core/evidence/titration/reckon.ts';
import type { TitrationEntered } from '../../src/core/evidence/titration/schema.ts';
import { exact } from '../../src/core/quantity/uncertain.ts';
import { structureFacts } from '../../src/structures/facts.ts';
import type { StructureKit } from '../../src/structures/port.ts';
import { loadStructureKit } from '../../src/structures/rdkit.ts';

describe('thin-layer chromatography', () => {
  test.each(published.retardation)('$source', ({ front_cm, spots_cm, rf, decimals }) => {
    const { spots, diagnostics } = placeSpots({
      technique: 'thinLayer',
      stationaryPhase: 'silica',
      eluent: 'as printed',
      measure: { by: 'ruler', start_mm: 0, front_mm: 10 * front_cm },
      visualisations: ['uv254'],
      lanes: spots_cm.map((cm) => ({
        kind: 'other',
        spots: [{ position_mm: 10 * cm, seenBy: ['uv254'] }],
      })),
    });
    expect(diagnostics).toEqual([]);
    expect(spots.map((spot) => spot.rf.value.toFixed(decimals))).toEqual(
      rf.map((value) => value.toFixed(decimals)),
    );
  });
});

describe('chromatography', () => {
  test.each(published.resolution)('$source', ({ t, w, rs, within, plates }) => {
    const peaks = [0, 1].map((i) => ({ retention_min: t[i]!, baseWidth_min: w[i]! }));
    expect(Math.abs(resolution(peaks[0]!, peaks[1]!)! - rs)).toBeLessThan(within);
    plates?.forEach((n, i) => expect(Number(plateNumber(peaks[i]!)!.toPrecision(3))).toBe(n));
  });

  test.each(published.plates)('$source', ({ t, w, n, within }) => {
    const found = plateNumber({ retention_min: t, baseWidth_min: w })!;
    expect(Math.abs(found - n)).toBeLessThan(within);
  });

  test(published.retention.source, () => {
    const { t, dead, adjusted, k } = published.retention;
    expect(t - dead).toBeCloseTo(adjusted, 9);
    expect(retentionFactor(t, dead)).toBeCloseTo(k, 9);
  });

  test.each(published.internalStandard)('$source', (row) => {
    const { factor, mass_mg } = calibrated(
      {
        name: 'S',
        analyte: 'X',
        standard_mg: row.standard,
        sample_mg: 1,
        calibration: [
          {
            analyte_mg: row.calibration.analyte,
            standard_mg: row.calibration.standard,
            analyteArea: row.calibration.analyteArea,
            standardArea: row.calibration.standardArea,
          },
        ],
      },
      { analyte: exact(row.analyteArea), standard: exact(row.standardArea) },
      0.01,
    );
    expect(Math.abs(factor.value - row.factor)).toBeLessThan(row.factorWithin);
    expect(Math.abs(mass_mg.value - row.analyte), row.why).toBeLessThan(row.within);
  });

  test.each(published.excess)('$source: $areas', ({ areas, ee_percent }) => {
    const ee = excess(exact(areas[0]!), exact(areas[1]!));
    expect(100 * ee.value).toBeCloseTo(ee_percent, 9);
  });

  test.each(published.flameResponse.rows)(
    `${published.flameResponse.source}: $name`,
    ({ smiles, molarMass_g_mol, sensitivity }) => {
      const heptane = effectiveCarbons('CCCCCCC')! / 100.2;
      const found = effectiveCarbons(smiles)! / molarMass_g_mol / heptane;
      expect(Math.abs(found / sensitivity - 1), published.flameResponse.why).toBeLessThan(
        CARBONS_U,
      );
    },
  );
});

interface Run {
  readonly sample_g: number;
  readonly titre_mL: number;
  readonly c: number;
  readonly blank_mL?: number;
}

function titration(
  { sample_g, titre_mL, c, blank_mL }: Run,
  kind: TitrationEntered['kind'] = 'acid',
  equivalents = 1,
): TitrationEntered {
  return {
    technique: 'titration',
    kind,
    titrant: 'as printed',
    strength: { by: 'given', concentration_mol_L: c },
    equivalents,
    ...(blank_mL === undefined ? {} : { blanks: [{ titre_mL: blank_mL }] }),
    runs: [{ sample_g, titre_mL }],
  };
}

describe('titration', () => {
  const { equivalentMass, purity, acidValue, saponification } = published.titration;

  test(equivalentMass.source, () => {
    const { result } = reckon(titration(equivalentMass));
    expect(equivalentMass_g_mol(result!.taken_mmol_g).value.toFixed(equivalentMass.decimals)).toBe(
      equivalentMass.answer_g_mol.toFixed(equivalentMass.decimals),
    );
  });

  test.each(purity)('$source', (row) => {
    const made = makeSubstance({ name: 'acid', smiles: row.smiles });
    if (!made.ok) throw new Error(made.message);
    const { statements } = judgeTitration(titration(row, 'acid', row.equivalents), {
      product: { role: 'product', substance: made.substance, literature: {} },
      others: [],
    });
    const figure = statements.find(({ id }) => id === 'content')?.purity;
    expect(figure?.basis).toBe('mass');
    expect(Math.abs(100 * figure!.share - row.percent)).toBeLessThan(row.within);
  });

  test(acidValue.source, () => {
    const { result } = reckon(titration(acidValue));
    const value = hydroxideValue_mg_g(result!.taken_mmol_g).value;
    const asPrinted = (value * acidValue.hydroxide) / hydroxideMass_g_mol().value;
    expect(asPrinted.toFixed(acidValue.decimals)).toBe(acidValue.answer.toFixed(3));
  });

  test.each(saponification)('$source', (row) => {
    const { result } = reckon(titration(row, 'saponification'));
    const value = hydroxideValue_mg_g(result!.taken_mmol_g).value;
    const asPrinted = (value * row.hydroxide) / hydroxideMass_g_mol().value;
    expect(Math.abs(asPrinted - row.answer)).toBeLessThan(row.within);
  });

  test('potassium hydroxide: 56.1 (EN 14104, section 10; Ph. Eur. 2.5.1)', () => {
    expect(hydroxideMass_g_mol().value.toFixed(1)).toBe('56.1');
  });
});

describe('chemical tests', () => {
  let kit: StructureKit;
  beforeAll(async () => {
    kit = await loadStructureKit();
  });

  for (const { source, test: id, rows } of published.tests)
    test.each(rows as [string, string][])(`${source}: ${id}, %s %s`, (smiles, answer) => {
      const reading = structureFacts(kit, smiles);
      if (!reading.ok) throw new Error(reading.message);
      expect(expectedOf(findChemicalTest(id)!, reading.facts).result).toBe(answer);
    });
});
