import type { Charge } from '../../enact/enactment.ts';
import type { MaterialUse } from '../../experiment/step.ts';
import type { Amount, AnyAmount } from '../../quantity/amount.ts';
import { total } from '../../quantity/amount.ts';
import { formatAmount, formatNumber, THIN_SPACE } from '../../quantity/print.ts';
import { fromBase, unitNamed } from '../../quantity/unit.ts';
import type { BenchField, Measure } from './field.ts';

/** Half and double the plan: where a slip is likelier than an intention (common practice). */
const LOW = 0.5;
const HIGH = 2;
/** What a teaching balance shows where the yield rests on it (common practice). */
const BALANCE_DECIMALS = 3;
const FIGURES = 3;

type Kind = 'mass' | 'volume';

/** The field of a material taken from the stock; undefined where no figure of it is asked for. */
export function chargeField(
  use: MaterialUse,
  charge: Charge | undefined,
  counts: boolean,
): BenchField | undefined {
  if (use.amounts.some(isLoose)) return undefined;
  const [main, other] = measuresOf(use, charge, counts);
  if (main === undefined) return undefined;
  const how = main.unit === 'g' ? 'weighed' : 'measured';
  return {
    key: `charge ${use.id}`,
    kind: 'charge',
    use: use.id,
    item: use.name,
    label: `${use.name}, ${how}`,
    counts,
    ...main,
    ...(other === undefined ? {} : { or: other }),
  };
}

/** "A small crystal", "3 drops": nobody weighs that. */
function isLoose(amount: AnyAmount): boolean {
  return amount.kind === 'drops' || amount.assumed !== undefined;
}

/** By mass before by volume; a solid by mass alone; what is written in moles by what it comes to. */
function measuresOf(use: MaterialUse, charge: Charge | undefined, counts: boolean): Measure[] {
  const written = (['mass', 'volume'] as const).flatMap((kind) => {
    const amount = use.amounts.find((each): each is Amount => each.kind === kind);
    return amount === undefined ? [] : [writtenMeasure(use, kind, amount, counts)];
  });
  const solid = isDrySolid(use);
  const allowed = solid ? written.filter((each) => each.unit === 'g') : written;
  if (allowed.length > 0) return allowed;
  const reckoned = charge === undefined ? undefined : reckonedMeasure(charge, solid, counts);
  return reckoned === undefined ? [] : [reckoned];
}

/** A solid is weighed: a record of its volume would not be counted. */
function isDrySolid({ material }: MaterialUse): boolean {
  return (
    material?.substance.state === 'solid' &&
    material.solvent === undefined &&
    material.strength === undefined
  );
}

function writtenMeasure(use: MaterialUse, kind: Kind, amount: Amount, counts: boolean): Measure {
  const unit = unitFor(kind, amount.unit);
  const own = (base: number) => Number(fromBase(base, unitNamed(unit)!).toPrecision(12));
  const times = amount.repeat === undefined ? use.repeat : 1;
  const value = own(total(amount) * times);
  const high = own(total(amount, 'high') * times);
  const written = formatAmount(amount);
  const text = times > 1 ? `${times} × ${written}` : written;
  return {
    unit,
    planned: { value, text },
    ...bounds(value, high),
    decimals: decimalsFor(unit, decimalsOf(amount, unit), counts),
  };
}

/** Masses in g, as balances show them; volumes in the unit that the document writes. */
function unitFor(kind: Kind, written: string): string {
  if (kind === 'mass') return 'g';
  return written === 'L' || written === 'µL' ? written : 'mL';
}

function reckonedMeasure(charge: Charge, solid: boolean, counts: boolean): Measure | undefined {
  if (charge.measuredAs === 'excess' || charge.measuredAs === 'unquantified') return undefined;
  const liquid = !solid && charge.material.substance.state === 'liquid';
  const { volume_mL } = charge;
  const byVolume = liquid && volume_mL !== undefined;
  const unit = byVolume ? 'mL' : 'g';
  const value = Number((byVolume ? volume_mL : charge.mass_g).toPrecision(FIGURES));
  if (!(value > 0)) return undefined;
  return {
    unit,
    planned: { value, text: `${formatNumber(value, FIGURES)}${THIN_SPACE}${unit}` },
    ...bounds(value, value),
    decimals: decimalsFor(unit, 2, counts),
  };
}

function bounds(low: number, high: number): { readonly low?: number; readonly high?: number } {
  return low > 0 ? { low: LOW * low, high: HIGH * high } : {};
}

/** Of the amount as written, moved to the unit asked for: 150 mg has three in g. */
function decimalsOf({ value, digits }: Amount, unit: string): number {
  const own = fromBase(value, unitNamed(unit)!);
  return own > 0 ? Math.max(0, digits - 1 - Math.floor(Math.log10(own) + 1e-12)) : 0;
}

function decimalsFor(unit: string, written: number, counts: boolean): number {
  return unit === 'g' && counts ? Math.max(BALANCE_DECIMALS, written) : Math.min(6, written);
}
