import { molarMass } from '../../chemistry/molar-mass.ts';
import type { Substance } from '../../chemistry/substance.ts';
import type { Charge, Enactment } from '../../enact/enactment.ts';
import type { Experiment, MaterialUse } from '../../experiment/step.ts';
import type { AnyAmount } from '../../quantity/amount-model.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import { fromHalfWidth } from '../../quantity/uncertain.ts';
import { measurementsOf } from '../../record/actuals.ts';
import type { BenchRun, RunCharge, RunNet, Term } from '../../record/run.ts';
import type { Linear, YieldInput } from './linear.ts';

/** Something that a bench can have taken otherwise, and that the theory may depend on. */
export interface Adjustable {
  readonly of:
    | { readonly kind: 'charge'; readonly use: string; readonly measure: 'mass' | 'volume' }
    | { readonly kind: 'net'; readonly step: string; readonly vessel: string };
  /** g or mL, as a sum of readings. */
  readonly amount: Linear;
}

/** Every input by its id. Filled while the model is built. */
export type InputTable = Map<string, YieldInput>;

export function measuredInputs(run: BenchRun, own: readonly Instrument[]): InputTable {
  const table: InputTable = new Map();
  for (const { id, what, value, u, basis, shape } of measurementsOf(run, own)) {
    table.set(id, { id, what, value, u, shape, basis });
  }
  return table;
}

/** A sum of readings; one that occurs twice has its slopes added. */
export function linearOf(value: number, terms: readonly Term[]): Linear {
  const slopes = new Map<string, number>();
  for (const { sign, reading } of terms) {
    slopes.set(reading.id, (slopes.get(reading.id) ?? 0) + sign);
  }
  return { value, slopes };
}

export function chargeAdjustable(charge: RunCharge): Adjustable {
  return {
    of: { kind: 'charge', use: charge.use, measure: charge.kind },
    amount: linearOf(charge.value, charge.terms),
  };
}

export function netAdjustable(net: RunNet): Adjustable {
  return {
    of: { kind: 'net', step: net.step, vessel: net.vessel },
    amount: linearOf(net.net_g, net.terms),
  };
}

/**
 * A charge that nobody measured counts as written, with half a unit of its last digit to either
 * side, rectangular (JCGM 100:2008, 4.3.7).
 */
export function plannedAdjustable(
  charge: Charge,
  use: MaterialUse | undefined,
  table: InputTable,
): Adjustable {
  const id = `planned ${charge.use}`;
  const relative = relativeHalfDigit(charge, use?.amounts ?? []);
  table.set(id, {
    id,
    what: `${charge.name}, step ${charge.step}: as written, not measured`,
    value: charge.mass_g,
    u: fromHalfWidth(relative * charge.mass_g, 'rectangular'),
    shape: 'rectangular',
    basis: 'planned',
  });
  return {
    of: { kind: 'charge', use: charge.use, measure: 'mass' },
    amount: { value: charge.mass_g, slopes: new Map([[id, 1]]) },
  };
}

const AMOUNT_KIND: Readonly<Partial<Record<Charge['measuredAs'], readonly string[]>>> = {
  mass: ['mass'],
  volume: ['volume', 'drops'],
  amount: ['amount'],
  equivalents: ['equivalents', 'moleFraction'],
};

/** Half a unit of the last digit as a share of the amount: 1.44 has 0.005/1.44. A range: its half. */
function relativeHalfDigit(charge: Charge, amounts: readonly AnyAmount[]): number {
  const kinds = AMOUNT_KIND[charge.measuredAs] ?? [];
  for (const amount of amounts) {
    if (amount.kind === 'unquantified' || !kinds.includes(amount.kind)) continue;
    if (!(amount.value > 0)) continue;
    if (amount.high !== undefined) {
      return (amount.high - amount.value) / (amount.high + amount.value);
    }
    const exponent = Math.floor(Math.log10(amount.value) + 1e-12) - amount.digits + 1;
    return (0.5 * 10 ** exponent) / amount.value;
  }
  return 0.05;
}

/** Charges that no entry of the record is about, and that a declared or a side reaction can draw on. */
export function unmeasuredCharges(
  experiment: Experiment,
  enactment: Enactment,
  run: BenchRun,
): Charge[] {
  const measured = new Set(run.charges.map((charge) => charge.use));
  const drawn = new Set<string>();
  for (const reaction of experiment.reactions) {
    for (const term of reaction.reactants) drawn.add(term.substance.id);
  }
  for (const reaction of enactment.reactions) {
    for (const each of reaction.available) drawn.add(each.substance);
  }
  return enactment.charges.filter(
    (charge) =>
      !measured.has(charge.use) &&
      charge.measuredAs !== 'excess' &&
      charge.measuredAs !== 'unquantified' &&
      charge.mass_g > 0 &&
      charge.material.composition.some((each) => drawn.has(each.substance.id)),
  );
}

/**
 * A molar mass on the atomic weights that it is made of, so that the carbon of the product and
 * that of the reactant err together.
 */
export function molarMassOf(substance: Substance, table: InputTable): Linear {
  const value = substance.molarMass_g_mol ?? Number.NaN;
  const slopes = new Map<string, number>();
  if (substance.composition !== undefined) {
    for (const { symbol, count, weight, u } of molarMass(substance.composition).parts) {
      const id = `atomic weight ${symbol}`;
      if (!table.has(id)) {
        const what = `atomic weight of ${symbol}`;
        table.set(id, { id, what, value: weight, u, shape: 'rectangular', basis: 'table' });
      }
      slopes.set(id, count);
    }
  }
  return { value, slopes };
}
