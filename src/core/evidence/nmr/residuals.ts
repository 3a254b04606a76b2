import residualsTable from '../../facts/nmr_residuals.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../facts/table.ts';
import { readMultiplicity } from './multiplicity.ts';
import type { NmrSignal } from './schema.ts';
import { endsOf, middleOf } from './signal.ts';
import type { NmrSolvent } from './solvents.ts';

export type ResidualKind = 'reference' | 'solvent' | 'water' | 'grease' | 'residual';

export interface ResidualRow {
  readonly solvent: string;
  readonly substance: string;
  readonly smiles: string;
  readonly group: string;
  /** Of one molecule; absent for the solvent's own signal and for greases. */
  readonly hydrogens?: number;
  readonly multiplicity: string;
  readonly shift_ppm: number;
  readonly kind: ResidualKind;
  readonly source: string;
}

/** Concentration and temperature move such shifts by a few hundredths of a ppm (common practice). */
export const RESIDUAL_TOLERANCE_PPM = 0.03;
/** Water and alcohols' OH move much more. */
const MOVING_TOLERANCE_PPM = 0.12;
/** Integrals of one substance, each per hydrogen, agree within this factor or it is another one. */
const SAME_AMOUNT = 1.5;

let cached: readonly ResidualRow[] | undefined;

/** The table's rows for one deuterated solvent. */
export function residualRows(solvent: NmrSolvent): readonly ResidualRow[] {
  cached ??= rowsOf(residualsTable).map((row) => {
    const hydrogens = numberIn(row['hydrogens']);
    return {
      solvent: row['solvent']!,
      substance: row['substance']!,
      smiles: row['smiles']!,
      group: row['group']!,
      ...(hydrogens === undefined ? {} : { hydrogens }),
      multiplicity: row['multiplicity']!,
      shift_ppm: Number(row['shift_ppm']),
      kind: row['kind'] as ResidualKind,
      source: row['source']!,
    };
  });
  return cached.filter((row) => row.solvent === solvent);
}

/** A substance found by its signals. */
export interface NamedResidual {
  readonly substance: string;
  readonly smiles: string;
  readonly kind: ResidualKind;
  readonly signals: readonly { readonly signal: number; readonly row: ResidualRow }[];
  /** Rows that other signals would hide. */
  readonly hidden: number;
  /** Substances that would explain the same signals as well. */
  readonly alternatives: readonly string[];
}

const isMoving = (row: ResidualRow): boolean => row.kind === 'water' || /OH|H2O/.test(row.group);

function sameShape(signal: NmrSignal, row: ResidualRow): boolean {
  if (signal.multiplicity === undefined || row.multiplicity === 'm' || isMoving(row)) return true;
  // The deuterated solvent and the reference are known by their place alone.
  if (row.kind === 'solvent' || row.kind === 'reference') return true;
  const seen = readMultiplicity(signal.multiplicity);
  const known = readMultiplicity(row.multiplicity);
  if (seen === undefined || known === undefined || known.multiplet) return true;
  if (seen.multiplet) return known.couplings.length > 0;
  return seen.couplings.join() === known.couplings.join();
}

function distance(signal: NmrSignal, row: ResidualRow): number {
  return Math.abs(middleOf(signal) - row.shift_ppm);
}

/** Whether a signal at this place can be that of the row. */
export function isAt(signal: NmrSignal, row: ResidualRow): boolean {
  const tolerance = isMoving(row) ? MOVING_TOLERANCE_PPM : RESIDUAL_TOLERANCE_PPM;
  return distance(signal, row) <= tolerance + 1e-9 && sameShape(signal, row);
}

interface Candidate extends Omit<NamedResidual, 'alternatives'> {
  readonly away: number;
}

function amountsAgree(signals: readonly NmrSignal[], found: NamedResidual['signals']): boolean {
  const amounts = found.flatMap(({ signal, row }) => {
    const area = signals[signal]!.integral;
    return area === undefined || row.hydrogens === undefined || isMoving(row)
      ? []
      : [area / row.hydrogens];
  });
  return amounts.length < 2 || Math.max(...amounts) <= SAME_AMOUNT * Math.min(...amounts);
}

function candidateOf(
  rows: readonly ResidualRow[],
  signals: readonly NmrSignal[],
  open: readonly number[],
): Candidate | undefined {
  const found: { signal: number; row: ResidualRow }[] = [];
  let hidden = 0;
  let away = 0;
  for (const row of rows) {
    const [nearest] = open
      .filter((i) => isAt(signals[i]!, row) && !found.some((f) => f.signal === i))
      .sort((a, b) => distance(signals[a]!, row) - distance(signals[b]!, row));
    if (nearest !== undefined) {
      found.push({ signal: nearest, row });
      away += distance(signals[nearest]!, row);
      continue;
    }
    const covered = signals.some((signal, i) => {
      const [low, high] = endsOf(signal);
      const reach = 2 * RESIDUAL_TOLERANCE_PPM;
      return !open.includes(i) && row.shift_ppm >= low - reach && row.shift_ppm <= high + reach;
    });
    if (!covered && !isMoving(row)) return undefined;
    hidden++;
  }
  const [first] = rows;
  if (first === undefined || found.length === 0 || !amountsAgree(signals, found)) return undefined;
  // An OH alone names no alcohol.
  if (first.kind !== 'water' && found.every(({ row }) => isMoving(row))) return undefined;
  const { substance, smiles, kind } = first;
  return { substance, smiles, kind, signals: found, hidden, away };
}

/**
 * Names the open signals from the table of solvents and other usual contaminants: every signal of
 * a substance has to be there, with its pattern and with integrals in proportion, unless another
 * signal covers its place. The substance that explains most is taken first.
 */
export function nameResiduals(
  solvent: NmrSolvent,
  signals: readonly NmrSignal[],
  open: readonly number[],
): NamedResidual[] {
  const groups = new Map<string, ResidualRow[]>();
  for (const row of residualRows(solvent))
    if (row.kind !== 'solvent' && row.kind !== 'reference')
      groups.set(row.substance, [...(groups.get(row.substance) ?? []), row]);
  const named: NamedResidual[] = [];
  let left = [...open];
  for (;;) {
    const ranked = [...groups.values()]
      .flatMap((rows) => candidateOf(rows, signals, left) ?? [])
      .sort(
        (a, b) => b.signals.length - a.signals.length || a.hidden - b.hidden || a.away - b.away,
      );
    const [best, ...others] = ranked;
    if (best === undefined) return named;
    const taken = new Set(best.signals.map(({ signal }) => signal));
    const alternatives = (best.kind === 'water' ? [] : others)
      .filter((o) => o.signals.length === best.signals.length && o.hidden <= best.hidden)
      .filter((o) => o.signals.every(({ signal }) => taken.has(signal)))
      .map((o) => o.substance);
    const { away: _away, ...rest } = best;
    named.push({ ...rest, alternatives });
    left = left.filter((i) => !taken.has(i));
    groups.delete(best.substance);
  }
}
