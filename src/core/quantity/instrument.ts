import instruments from '../facts/instruments.json' with { type: 'json' };
import { numberIn, rowsOf } from '../facts/table.ts';
import { readAmount } from './amount.ts';
import { fromHalfWidth } from './uncertain.ts';
import { fromBase, unitNamed } from './unit.ts';

export type InstrumentKind =
  | 'balance'
  | 'pipette'
  | 'burette'
  | 'cylinder'
  | 'syringe'
  | 'volumetric flask'
  | 'piston pipette'
  | 'thermometer'
  | 'beaker'
  | 'refractometer';

/** A measuring instrument. Its figures are in `unit`: g, mL, °C, or none for a refractive index. */
export interface Instrument {
  readonly id: string;
  readonly kind: InstrumentKind;
  readonly name: string;
  readonly capacity?: number;
  readonly class?: string;
  /** The smallest step that is read. */
  readonly readability?: number;
  /** Half-width of the greatest error: of a scale, or for a balance of its linearity. */
  readonly tolerance: number;
  /** 'reading' where `tolerance` is a percentage of the reading. */
  readonly toleranceOf: 'scale' | 'reading';
  readonly unit: string;
  readonly distribution: 'rectangular' | 'triangular';
  /** Standard deviation of repeated readings. */
  readonly repeatability?: number;
  readonly source: string;
}

const INSTRUMENTS: readonly Instrument[] = rowsOf(instruments).map((row) => {
  const { readability, capacity, repeatability } = {
    readability: numberIn(row.readability),
    capacity: numberIn(row.capacity),
    repeatability: numberIn(row.repeatability),
  };
  const relative = row.tolerance?.endsWith('%') === true;
  return {
    id: row.id ?? '',
    kind: row.kind as InstrumentKind,
    name: row.name ?? '',
    ...(capacity === undefined ? {} : { capacity }),
    ...(row.class === undefined || row.class === '' ? {} : { class: row.class }),
    ...(readability === undefined ? {} : { readability }),
    tolerance: numberIn(row.tolerance?.replace('%', '')) ?? 0,
    toleranceOf: relative ? 'reading' : 'scale',
    unit: row.unit ?? '',
    distribution: row.distribution === 'triangular' ? 'triangular' : 'rectangular',
    ...(repeatability === undefined ? {} : { repeatability }),
    source: row.source ?? '',
  };
});

/** Every instrument of the table, in its order. */
export function allInstruments(): readonly Instrument[] {
  return INSTRUMENTS;
}

/** Words of a name without their order, so that "25 mL measuring cylinder" finds its row. */
function wordsOf(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[μµ]/g, 'u')
    .replace(/([0-9])[\s\u00a0\u202f]*(mg|g|ml|ul)\b/g, '$1$2')
    .replace(/,/g, ' ');
  return plain.split(/\s+/).filter(Boolean).sort().join(' ');
}

const BY_NAME = new Map<string, Instrument>();
for (const instrument of INSTRUMENTS) {
  BY_NAME.set(instrument.id.toLowerCase(), instrument);
  BY_NAME.set(wordsOf(instrument.name), instrument);
  // Glass whose class is not told counts as class B, the wider of the two.
  if (instrument.class === 'B')
    BY_NAME.set(wordsOf(instrument.name.replace(', class B', '')), instrument);
}

/**
 * By id or by name, in any case and order of words: "balance-1mg", "25 mL measuring cylinder".
 * The laboratory's own come before those of the table.
 */
export function findInstrument(
  idOrName: string,
  own: readonly Instrument[] = [],
): Instrument | undefined {
  const key = idOrName.trim().toLowerCase().slice(0, 100);
  const words = wordsOf(key);
  return (
    own.find(({ id }) => id.toLowerCase() === key) ??
    own.find(({ name }) => wordsOf(name) === words) ??
    BY_NAME.get(key) ??
    BY_NAME.get(words)
  );
}

export interface UncertaintyTerm {
  readonly name: 'linearity' | 'tolerance' | 'repeatability' | 'readability' | 'temperature';
  readonly u: number;
}

export interface ReadingUncertainty {
  readonly u: number;
  readonly terms: readonly UncertaintyTerm[];
}

export interface ReadingConditions {
  /** The liquid is within ± this of the temperature of the calibration. */
  readonly temperatureHalfWidth_C?: number;
  /** Its coefficient of volume expansion. */
  readonly expansion_per_C?: number;
}

/**
 * The standard uncertainty of one reading, in the unit of the instrument, and what it is made of:
 * tolerance (for a balance: linearity), repeatability and the rounding of the display or scale,
 * in quadrature; on request the expansion of the liquid (QUAM A1.4). See docs/methods/uncertainty.md.
 */
export function standardUncertaintyOfReading(
  instrument: Instrument,
  reading: number,
  conditions: ReadingConditions = {},
): ReadingUncertainty {
  const size = Math.abs(reading);
  const halfWidth =
    instrument.toleranceOf === 'reading'
      ? (instrument.tolerance / 100) * size
      : instrument.tolerance;
  const warming =
    size * (conditions.expansion_per_C ?? 0) * (conditions.temperatureHalfWidth_C ?? 0);
  const terms: UncertaintyTerm[] = [
    {
      name: instrument.kind === 'balance' ? 'linearity' : 'tolerance',
      u: fromHalfWidth(halfWidth, instrument.distribution),
    },
    { name: 'repeatability', u: instrument.repeatability ?? 0 },
    { name: 'readability', u: fromHalfWidth((instrument.readability ?? 0) / 2, 'rectangular') },
    { name: 'temperature', u: fromHalfWidth(warming, 'rectangular') },
  ];
  const present = terms.filter(({ u }) => u > 0);
  return { u: Math.hypot(...present.map(({ u }) => u)), terms: present };
}

/**
 * As above for the difference of two readings of one instrument (gross less tare): every term
 * counts twice, the linearity too (QUAM A2.4).
 */
export function standardUncertaintyOfDifference(
  instrument: Instrument,
  gross: number,
  tare: number,
): ReadingUncertainty {
  const readings = [gross, tare].map((reading) =>
    standardUncertaintyOfReading(instrument, reading),
  );
  const terms = readings.flatMap((reading) => reading.terms);
  return { u: Math.hypot(...terms.map(({ u }) => u)), terms };
}

/** Finest first. */
const BALANCES = INSTRUMENTS.filter(({ kind }) => kind === 'balance').sort(
  (a, b) => (a.readability ?? 0) - (b.readability ?? 0),
);

/**
 * The balance that a written mass suggests: the coarsest of the table that shows as many decimals
 * (of grams). Takes the number of decimals, or the text: "1.250 g", "12.5 mg"; a bare number is in
 * grams. Undefined where the text is no mass.
 */
export function balanceForReading(reading: string | number): Instrument | undefined {
  const decimals = typeof reading === 'number' ? reading : decimalsOfGrams(reading);
  if (decimals === undefined || Number.isNaN(decimals)) return undefined;
  const step = 10 ** -decimals;
  const fine = BALANCES.filter((balance) => (balance.readability ?? 0) <= step * 1.000001);
  return fine.at(-1) ?? BALANCES[0];
}

function decimalsOfGrams(text: string): number | undefined {
  const read = readAmount(/[a-zµμ]\s*$/i.test(text) ? text : `${text} g`);
  if (read.kind !== 'mass') return undefined;
  const own = unitNamed(read.unit);
  if (own === undefined) return undefined;
  // The last written figure stands this many places right of the first.
  const value = fromBase(read.value, own);
  const first = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)) + 1e-12);
  return read.digits - 1 - first - (own.power ?? 0);
}
