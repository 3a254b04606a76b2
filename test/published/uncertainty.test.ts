import { describe, expect, test } from 'vitest';
import published from './uncertainty.json' with { type: 'json' };
import { standardUncertaintyOfDifference } from '../../src/core/quantity/instrument.ts';
import { monteCarlo } from '../../src/core/quantity/monte-carlo.ts';
import type { MonteCarloInput } from '../../src/core/quantity/monte-carlo.ts';
import { formatWithUncertainty } from '../../src/core/quantity/print.ts';
import { coverageFactor, effectiveDegreesOfFreedom } from '../../src/core/quantity/student.ts';
import {
  add,
  apply,
  budget,
  cholesky,
  correlated,
  correlation,
  cos,
  divide,
  expanded,
  fromHalfWidth,
  measured,
  multiply,
  relativeUncertainty,
  scale,
  sin,
  standardUncertainty,
  subtract,
  sum,
} from '../../src/core/quantity/uncertain.ts';
import type { Distribution, Uncertain } from '../../src/core/quantity/uncertain.ts';

const { a1, a2, a3, h1, h2, coverage, typeB } = published;
const DRAWS = 200_000;

function rectangular(id: string, value: number, halfWidth: number): Uncertain {
  return measured(id, value, fromHalfWidth(halfWidth, 'rectangular'));
}

/** A volume with its calibration (triangular) and the temperature of its liquid (rectangular). */
function volume(id: string, value: number, calibration: number, temperature: number): Uncertain {
  return sum([
    measured(`${id}.calibration`, value, fromHalfWidth(calibration, 'triangular')),
    rectangular(`${id}.temperature`, 0, temperature),
  ]);
}

/** A mass by difference: the linearity of the balance counts for the gross and for the tare. */
function byDifference(value: number, halfWidth: number): Uncertain {
  return subtract(rectangular('gross', value, halfWidth), rectangular('tare', 0, halfWidth));
}

function product(over: readonly Uncertain[], under: readonly Uncertain[]): Uncertain {
  return divide(over.reduce(multiply), under.reduce(multiply));
}

/** The root of the squares of all parts whose ids begin so. */
function shareOf(x: Uncertain, start: string): number {
  const parts = budget(x).filter(({ id }) => id.startsWith(start));
  return Math.hypot(...parts.map(({ part }) => part));
}

function inputOf(id: string, x: Uncertain): MonteCarloInput {
  return { id, value: x.value, u: standardUncertainty(x), shape: 'normal' };
}

describe(`calibration standard (${a1.source})`, () => {
  const v = a1.volume_mL;
  const purity = rectangular('purity', a1.purity.value, a1.purity.halfWidth);
  const mass = measured('mass', a1.mass_mg.value, a1.mass_mg.u);
  const flask = sum([
    measured('volume.flask', v.value, fromHalfWidth(v.calibration.halfWidth, 'triangular')),
    measured('volume.repeatability', 0, v.repeatability),
    rectangular('volume.temperature', 0, v.temperature.halfWidth),
  ]);
  const c = scale(product([mass, purity], [flask]), 1000);

  test('inputs and result as printed', () => {
    expect(standardUncertainty(purity)).toBeCloseTo(a1.printed.uPurity, 6);
    expect(standardUncertainty(flask)).toBeCloseTo(a1.printed.uVolume_mL, 2);
    expect(c.value).toBeCloseTo(a1.printed.c, 1);
  });

  test(a1.why, () => {
    expect(standardUncertainty(c)).toBeCloseTo(a1.recomputed.u, 5);
    const rounded = measured('volume', v.value, a1.printed.uVolume_mL);
    const asPrinted = scale(product([mass, purity], [rounded]), 1000);
    expect(standardUncertainty(asPrinted).toFixed(1)).toBe(a1.printed.u.toFixed(1));
    expect(relativeUncertainty(asPrinted).toFixed(4)).toBe(a1.printed.relative.toFixed(4));
    expect(expanded(measured('c', c.value, a1.printed.u))).toBeCloseTo(a1.printed.expanded, 9);
  });

  test('budget', () => {
    for (const [id, part] of Object.entries(a1.recomputed.budget))
      expect(shareOf(c, id)).toBeCloseTo(part, 5);
  });

  test('drawing agrees', () => {
    const drawn = monteCarlo(
      [inputOf('m', mass), inputOf('P', purity), inputOf('V', flask)],
      (x) => (1000 * x[0]! * x[1]!) / x[2]!,
      DRAWS,
      1,
    );
    expect(drawn.mean).toBeCloseTo(c.value, 1);
    expect(Math.abs(drawn.u / standardUncertainty(c) - 1)).toBeLessThan(0.01);
  });
});

describe(`standardising sodium hydroxide (${a2.source})`, () => {
  const repeatability = measured('repeatability', 1, a2.repeatability.u);
  const purity = rectangular('purity', 1, a2.purity.halfWidth);
  const molarMass = measured('molarMass', a2.molarMass_g_mol.value, a2.molarMass_g_mol.u);
  const mass = byDifference(a2.mass_g.value, a2.mass_g.linearityHalfWidth);
  const burette = sum([
    measured(
      'volume',
      a2.volume_mL.value,
      fromHalfWidth(a2.volume_mL.calibrationHalfWidth, 'triangular'),
    ),
    measured('volume.temperature', 0, a2.volume_mL.uTemperature),
  ]);
  const c = scale(product([repeatability, mass, purity], [molarMass, burette]), 1000);

  test('result as printed', () => {
    expect(c.value.toFixed(5)).toBe(a2.printed.c.toFixed(5));
    expect(standardUncertainty(c).toFixed(5)).toBe(a2.printed.u.toFixed(5));
    expect(expanded(c).toFixed(4)).toBe(a2.printed.expanded.toFixed(4));
    const rounded = Math.hypot(0.012, a2.volume_mL.uTemperature);
    expect(rounded.toFixed(3)).toBe(a2.printed.uVolume_mL.toFixed(3));
    expect(Math.abs(relativeUncertainty(c) - a2.printed.relative)).toBeLessThan(2e-5);
    expect(formatWithUncertainty(c.value, standardUncertainty(c))).toBe('0.10214 ± 0.00010');
  });

  test(a2.why, () => {
    expect(c.value).toBeCloseTo(a2.recomputed.c, 9);
    expect(Math.abs(standardUncertainty(c) / a2.recomputed.u - 1)).toBeLessThan(1e-4);
    expect(standardUncertainty(mass)).toBeCloseTo(Math.sqrt(2 / 3) * 0.00015, 9);
    const { mass: ofMass, ...others } = a2.recomputed.budget;
    expect(Math.abs(Math.hypot(shareOf(c, 'gross'), shareOf(c, 'tare')) / ofMass - 1)).toBeLessThan(
      1e-4,
    );
    for (const [id, part] of Object.entries(others))
      expect(Math.abs(shareOf(c, id) / part - 1)).toBeLessThan(id === 'molarMass' ? 0.01 : 1e-4);
  });

  test('weighing by difference counts the linearity twice (QUAM A2.4)', () => {
    const balance = {
      id: 'a2',
      kind: 'balance',
      name: 'balance of example A2',
      tolerance: a2.mass_g.linearityHalfWidth,
      toleranceOf: 'scale',
      unit: 'g',
      distribution: 'rectangular',
      source: a2.source,
    } as const;
    const { u, terms } = standardUncertaintyOfDifference(balance, 60.545, 60.1562);
    expect(terms.map(({ name }) => name)).toEqual(['linearity', 'linearity']);
    expect(u).toBeCloseTo(standardUncertainty(mass), 12);
  });

  test('drawing agrees', () => {
    const inputs = [repeatability, mass, purity, molarMass, burette];
    const drawn = monteCarlo(
      inputs.map((x, i) => inputOf(String(i), x)),
      (x) => (1000 * x[0]! * x[1]! * x[2]!) / (x[3]! * x[4]!),
      DRAWS,
      2,
    );
    expect(drawn.mean).toBeCloseTo(c.value, 5);
    expect(Math.abs(drawn.u / standardUncertainty(c) - 1)).toBeLessThan(0.01);
  });
});

describe(`acid-base titration (${a3.source})`, () => {
  const titration = (uRepeatability: number): Uncertain => {
    const [v1, v2, va] = [a3.volume1_mL, a3.volume2_mL, a3.volumeAcid_mL];
    return scale(
      product(
        [
          measured('repeatability', 1, uRepeatability),
          byDifference(a3.mass_g.value, a3.mass_g.linearityHalfWidth),
          rectangular('purity', 1, a3.purity.halfWidth),
          volume('volume2', v2.value, v2.calibrationHalfWidth, v2.temperatureHalfWidth),
        ],
        [
          volume('volume1', v1.value, v1.calibrationHalfWidth, v1.temperatureHalfWidth),
          measured('molarMass', a3.molarMass_g_mol.value, a3.molarMass_g_mol.u),
          volume('volumeAcid', va.value, va.calibrationHalfWidth, va.temperatureHalfWidth),
        ],
      ),
      1000,
    );
  };
  const c = titration(a3.repeatability.u);

  test('result as printed', () => {
    expect(c.value.toFixed(5)).toBe(a3.printed.c.toFixed(5));
  });

  test(a3.why, () => {
    expect(standardUncertainty(c)).toBeCloseTo(a3.recomputed.u, 6);
    const asHalfWidth = titration(fromHalfWidth(a3.repeatability.u, 'rectangular'));
    expect(standardUncertainty(asHalfWidth).toFixed(5)).toBe(a3.printed.u.toFixed(5));
    expect(Math.abs(relativeUncertainty(asHalfWidth) - a3.printed.relative)).toBeLessThan(5e-5);
  });

  test('budget', () => {
    for (const [id, part] of Object.entries(a3.recomputed.budget))
      if (id !== 'mass')
        expect(Math.abs(shareOf(c, id) / part - 1)).toBeLessThan(id === 'molarMass' ? 0.01 : 1e-4);
    const mass = Math.hypot(shareOf(c, 'gross'), shareOf(c, 'tare'));
    expect(Math.abs(mass / a3.recomputed.budget.mass - 1)).toBeLessThan(0.01);
  });

  test('drawing agrees', () => {
    const [v1, v2, va] = [a3.volume1_mL, a3.volume2_mL, a3.volumeAcid_mL];
    const inputs = [
      measured('R', 1, a3.repeatability.u),
      byDifference(a3.mass_g.value, a3.mass_g.linearityHalfWidth),
      rectangular('P', 1, a3.purity.halfWidth),
      volume('V2', v2.value, v2.calibrationHalfWidth, v2.temperatureHalfWidth),
      volume('V1', v1.value, v1.calibrationHalfWidth, v1.temperatureHalfWidth),
      measured('M', a3.molarMass_g_mol.value, a3.molarMass_g_mol.u),
      volume('VA', va.value, va.calibrationHalfWidth, va.temperatureHalfWidth),
    ];
    const drawn = monteCarlo(
      inputs.map((x, i) => inputOf(String(i), x)),
      (x) => (1000 * x[0]! * x[1]! * x[2]! * x[3]!) / (x[4]! * x[5]! * x[6]!),
      DRAWS,
      3,
    );
    expect(Math.abs(drawn.u / standardUncertainty(c) - 1)).toBeLessThan(0.01);
  });
});

describe(`end gauge (${h1.source})`, () => {
  const inputs = h1.inputs.map((input) => {
    const u =
      input.u ??
      fromHalfWidth(input.halfWidth ?? 0, (input.distribution ?? 'rectangular') as Distribution);
    return measured(input.id, input.value, u);
  });
  const gauge = (x: ArrayLike<number>): number =>
    x[0]! + x[1]! + x[2]! + x[3]! - x[0]! * (x[5]! * (x[7]! + x[8]!) + x[4]! * x[6]!);
  const l = apply((...x) => gauge(x), inputs);

  test('result, budget and first-order uncertainty as printed', () => {
    expect(l.value.toFixed(0)).toBe(h1.printed.l.toFixed(0));
    expect(standardUncertainty(l).toFixed(0)).toBe(h1.printed.u.toFixed(0));
    for (const { id, part } of budget(l)) {
      const stated = (h1.printed.budget as Record<string, number>)[id] ?? 0;
      const decimals = Number.isInteger(stated) ? 0 : 1;
      expect(Math.abs(part).toFixed(decimals)).toBe(stated.toFixed(decimals));
    }
  });

  test('99 % interval as printed', () => {
    const dof = new Map(
      h1.inputs.flatMap(({ id, dof: n }) => (n === undefined ? [] : [[id, n] as const])),
    );
    const effective = Math.floor(effectiveDegreesOfFreedom(l, dof));
    expect(effective).toBe(h1.printed.dof);
    const k = coverageFactor(effective, 0.99);
    expect(k.toFixed(2)).toBe(h1.printed.k99.toFixed(2));
    expect((k * h1.printed.u).toFixed(0)).toBe(h1.printed.U99.toFixed(0));
  });

  test(h1.why, () => {
    const u = inputs.map(standardUncertainty);
    const theta = Math.hypot(u[7]!, u[8]!);
    const ls = inputs[0]!.value;
    const second = Math.hypot(ls * u[5]! * theta, ls * u[4]! * u[6]!);
    const both = Math.hypot(standardUncertainty(l), second);
    expect(both.toFixed(0)).toBe(h1.printed.secondOrderU.toFixed(0));
    const drawn = monteCarlo(
      inputs.map((x, i) => inputOf(String(i), x)),
      gauge,
      DRAWS,
      4,
    );
    expect(Math.abs(drawn.u / both - 1)).toBeLessThan(0.01);
    expect(drawn.mean).toBeCloseTo(l.value, 0);
  });
});

describe(`resistance, reactance, impedance (${h2.source})`, () => {
  const impedance = ([v, i, phi]: readonly Uncertain[]): Record<'R' | 'X' | 'Z', Uncertain> => ({
    R: divide(multiply(v!, cos(phi!)), i!),
    X: divide(multiply(v!, sin(phi!)), i!),
    Z: divide(v!, i!),
  });

  /** Means of the observations, their experimental standard deviations and correlations. */
  function fromRaw(): Uncertain[] {
    const columns = [h2.raw.V, h2.raw.I_mA.map((x) => x / 1000), h2.raw.phi];
    const means = columns.map((xs) => xs.reduce((a, b) => a + b) / xs.length);
    const s = (i: number, j: number): number =>
      columns[i]!.reduce((all, x, k) => all + (x - means[i]!) * (columns[j]![k]! - means[j]!), 0) /
      (columns[i]!.length * (columns[i]!.length - 1));
    const u = columns.map((_, i) => Math.sqrt(s(i, i)));
    const r = columns.map((_, i) => columns.map((__, j) => s(i, j) / (u[i]! * u[j]!)));
    return correlated(h2.ids, means, u, r);
  }

  test('from the rounded uncertainties and correlations, to two figures of u', () => {
    const { R, X, Z } = impedance(correlated(h2.ids, h2.values, h2.u, h2.r));
    const p = h2.printedCoarse;
    for (const [x, [value, u]] of [
      [R, p.R],
      [X, p.X],
      [Z, p.Z],
    ] as const) {
      expect(Math.abs(x.value - value!)).toBeLessThan(0.006);
      expect(Math.abs(standardUncertainty(x) - u!)).toBeLessThan(0.006);
    }
    expect(correlation(R, X)).toBeCloseTo(p.rRX, 1);
    expect(correlation(R, Z)).toBeCloseTo(p.rRZ, 1);
    expect(correlation(X, Z)).toBeCloseTo(p.rXZ, 2);
  });

  test('from the observations, as printed', () => {
    const { R, X, Z } = impedance(fromRaw());
    const p = h2.printed;
    for (const [x, [value, u]] of [
      [R, p.R],
      [X, p.X],
      [Z, p.Z],
    ] as const) {
      expect(Math.abs(x.value - value!)).toBeLessThan(0.00051);
      expect(Math.abs(standardUncertainty(x) - u!)).toBeLessThan(0.00105);
    }
    const q = h2.printedCoarse;
    expect(correlation(R, X).toFixed(2)).toBe(q.rRX.toFixed(2));
    expect(correlation(R, Z).toFixed(2)).toBe(q.rRZ.toFixed(2));
    expect(correlation(X, Z).toFixed(2)).toBe(q.rXZ.toFixed(2));
  });

  test('without the correlations Z would be far off', () => {
    const apart = impedance(h2.ids.map((id, i) => measured(id, h2.values[i]!, h2.u[i]!)));
    expect(standardUncertainty(apart.Z) / h2.printed.Z[1]!).toBeLessThan(0.9);
  });

  test('drawing agrees', () => {
    const lower = cholesky(h2.r);
    const mixed = (z: ArrayLike<number>, i: number): number =>
      h2.values[i]! + h2.u[i]! * lower[i]!.reduce((all, l, j) => all + l * z[j]!, 0);
    const standard = h2.ids.map((id) => ({ id, value: 0, u: 1, shape: 'normal' as const }));
    const { X } = impedance(correlated(h2.ids, h2.values, h2.u, h2.r));
    const drawn = monteCarlo(
      standard,
      (z) => (mixed(z, 0) * Math.sin(mixed(z, 2))) / mixed(z, 1),
      DRAWS,
      5,
    );
    expect(Math.abs(drawn.u / standardUncertainty(X) - 1)).toBeLessThan(0.01);
  });
});

describe(`coverage factors (${coverage.source})`, () => {
  test.each(coverage.rows)('$dof degrees of freedom', ({ dof, k95, k99 }) => {
    const decimals = (dof ?? 1000) >= 100 ? 3 : 2;
    expect(coverageFactor(dof ?? Infinity).toFixed(decimals)).toBe(k95.toFixed(decimals));
    expect(coverageFactor(dof ?? Infinity, 0.99).toFixed(decimals)).toBe(k99.toFixed(decimals));
  });
});

test.each(typeB.rows)(`half-width of a $distribution distribution (${typeB.source})`, (row) => {
  expect(fromHalfWidth(1, row.distribution as Distribution)).toBeCloseTo(1 / row.divisor, 6);
});

test('add and sum are the same', () => {
  const [x, y] = [measured('x', 1, 0.1), measured('y', 2, 0.2)];
  expect(sum([x, y])).toEqual(add(x, y));
});
