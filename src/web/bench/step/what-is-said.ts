import type { BenchEntry } from '../../../core/record/entry.ts';
import { DEFAULT_YIELD_POLICY } from '../../../core/report/yield/policy.ts';
import { plainName } from '../../../core/record/near.ts';
import type { Line } from '../record/standing.ts';
import type { BenchField } from '../sheet.ts';
import { lessTare } from '../typed/plausible.ts';
import type { DecimalSign } from '../typed/typed-number.ts';
import { numberText } from '../typed/typed-number.ts';
import { stands, tareFor } from './field-kinds.ts';
import { doubtOf, measuredBy, netText } from './typed-field.ts';

/** What a number that was entered says: what it leaves, what it changed, and what is doubtful in it. */
export interface Said {
  readonly net?: string;
  readonly change?: string;
  readonly doubt?: string;
}

/**
 * Read out of the record, so that it is the same on every device and stays when the number was kept
 * in spite of a question. `all` are the lines of the whole record, `lines` those of the field.
 */
export function saidOf(
  field: BenchField,
  lines: readonly Line[],
  all: readonly Line[],
  sign: DecimalSign,
): Said {
  const standing = lines.filter(stands).map(({ entry }) => entry);
  const last = standing.at(-1);
  if (last?.value === undefined) return {};
  const measured = measuredBy(field, last.unit !== field.unit && last.unit === field.or?.unit);
  if (last.unit !== measured.unit) return {};
  const { value, high, decimals } = last;
  const reading = { value, ...(decimals !== undefined && { decimals }) };
  // Portions of one material are judged by what they come to.
  const sum = field.kind === 'charge' ? sumOf(standing, measured.unit) : value;
  const tare = tareFor(field, all);
  const doubt = doubtOf({ value: sum, ...(high !== undefined && { high }) }, measured, tare, sign);
  const net = netText(reading, tare, sign);
  const before = field.kind === 'gross' ? weighedBefore(last, all) : undefined;
  const change = before && changeOf(before, last, tare && lessTare(value, tare.value), sign);
  return {
    // A doubt about a net says what it is.
    ...(net !== undefined && doubt === undefined && { net: `Leaves ${net}.` }),
    ...(change !== undefined && { change }),
    ...(doubt !== undefined && { doubt }),
  };
}

function sumOf(entries: readonly BenchEntry[], unit: string): number {
  const values = entries.filter((each) => each.unit === unit).map(({ value = 0 }) => value);
  return Number(values.reduce((sum, value) => sum + value, 0).toFixed(9));
}

/** The weighing of the same vessel at the same step before this one. */
function weighedBefore(last: BenchEntry, all: readonly Line[]): BenchEntry | undefined {
  const { vessel = '', step, n = 1 } = last;
  const name = plainName(vessel);
  return all
    .filter(stands)
    .map(({ entry }) => entry)
    .filter(({ kind, unit, value }) => kind === 'gross' && unit === 'g' && value !== undefined)
    .filter((each) => each.step === step && plainName(each.vessel ?? '') === name)
    .filter((each) => (each.n ?? 1) < n)
    .sort((a, b) => (a.n ?? 1) - (b.n ?? 1))
    .at(-1);
}

/** Two weighings may differ by the share that a yield allows, or by two units of the last digit (common practice). */
function changeOf(
  before: BenchEntry,
  last: BenchEntry,
  net_g: number | undefined,
  sign: DecimalSign,
): string {
  const decimals = Math.max(...[before, last].map(decimalsOf));
  const change_g = lessTare(last.value!, before.value!);
  const allowed_g = Math.max(
    2.01 * 10 ** -decimals,
    DEFAULT_YIELD_POLICY.constantMass * Math.abs(net_g ?? 0),
  );
  const by = `${numberText({ value: Math.abs(change_g), decimals }, sign)}\u202fg`;
  if (Math.abs(change_g) <= allowed_g)
    return change_g === 0 ? 'As before: constant mass.' : `${by} from before: constant mass.`;
  return change_g < 0
    ? `${by} less than before: not at constant mass yet.`
    : `${by} more than before: was it cold, does it take up water?`;
}

function decimalsOf({ value = 0, decimals = 0 }: BenchEntry): number {
  return Math.max(decimals, numberText({ value }, '.').split('.')[1]?.length ?? 0);
}
