import type { MaterialUse } from '../../../core/experiment/step.ts';
import type { Basis } from '../../../core/ledger/posting.ts';
import { formatNumber } from '../../../core/quantity/print.ts';
import { excessFigures, reagentTable } from '../../../core/report/reagents/reagents.ts';
import type { ReagentRow, ReagentTable } from '../../../core/report/reagents/reagents.ts';
import type { Enacted } from '../enacted.ts';

/** One taking of a material, with the amount as the sentence has it. */
export interface Taking {
  readonly use: string;
  readonly step: string;
  readonly written: string;
}

export interface Row {
  readonly row: ReagentRow;
  readonly takings: readonly Taking[];
}

export interface Rows {
  /** What the reactions use, then what the work needs besides. */
  readonly groups: readonly { readonly title: string; readonly rows: readonly Row[] }[];
  readonly table: ReagentTable;
}

export function rowsOf({ experiment, plan }: Pick<Enacted, 'experiment' | 'plan'>): Rows {
  const table = reagentTable(experiment, plan);
  const uses = new Map<string, { readonly use: MaterialUse; readonly step: string }>();
  for (const { id, slots } of experiment.steps)
    for (const use of slots.materials ?? []) uses.set(use.id, { use, step: id });
  const rows = table.rows.map((row): Row => {
    const takings = row.uses.flatMap((id): Taking[] => {
      const taken = uses.get(id);
      return taken === undefined
        ? []
        : [{ use: id, step: taken.step, written: writtenOf(taken.use) }];
    });
    return { row, takings };
  });
  const used = rows.filter(({ row }) => isChemical(row));
  const besides = rows.filter(({ row }) => !isChemical(row));
  return {
    groups: [
      { title: 'For the reaction', rows: used },
      { title: 'Solvents and work-up', rows: besides },
    ].filter((group) => group.rows.length > 0),
    table,
  };
}

const RANK = ['mass', 'volume', 'amount', 'equivalents'];

/** The amount that is believed: a mass before a volume, a volume before moles. */
function writtenOf({ amounts }: MaterialUse): string {
  const rank = (kind: string) => (RANK.includes(kind) ? RANK.indexOf(kind) : RANK.length);
  return [...amounts].sort((a, b) => rank(a.kind) - rank(b.kind))[0]?.text ?? '';
}

/** Of what only dissolves, washes or dries nobody wants moles. */
const CHEMICAL: ReadonlySet<ReagentRow['role']> = new Set([
  'reactant',
  'recovered',
  'catalyst',
  'reagent',
  'activator',
]);

export const isChemical = ({ role }: ReagentRow): boolean => CHEMICAL.has(role);

export type Measure = 'mass' | 'volume' | 'amount' | 'equivalents';

const VALUE: Readonly<Record<Measure, (row: ReagentRow) => number | null>> = {
  mass: (row) => row.mass_g,
  volume: (row) => row.volume_mL,
  amount: (row) => row.amount_mmol,
  equivalents: (row) => row.equivalents,
};

/** A number of the table; nothing where the row has none or nobody wants it. */
export function valueOf(row: ReagentRow, measure: Measure): number | undefined {
  const value = VALUE[measure](row);
  const wanted = isChemical(row) || measure === 'mass' || measure === 'volume';
  return wanted && value !== null && value > 0 ? value : undefined;
}

/**
 * The amount that is written is as well known as the sentence; what follows from it through a density
 * or a strength that was assumed is assumed.
 */
export function basisOf(row: ReagentRow, measure: Measure): Basis {
  if (row.measuredAs === measure) return row.basis === 'measured' ? 'measured' : 'planned';
  if (row.measuredAs === 'excess' || row.measuredAs === 'unquantified') return 'assumed';
  return row.basis === 'assumed' ? 'assumed' : 'planned';
}

/** How a reactant stands to the need, in a word. */
export function standingOf(row: ReagentRow, decimal: '.' | ','): string {
  if (row.decides) return 'limits';
  if (row.limits) return `limits ${row.reaction}`;
  if (row.measuredAs === 'excess') return 'in excess';
  if (row.excess_percent === null) return '';
  if (row.excess_percent < 0.05) return 'just enough';
  const number = (value: number, digits: number) => formatNumber(value, digits, { decimal });
  return row.excess_percent > 1000
    ? `${number(1 + row.excess_percent / 100, 2)} × the need`
    : `${number(row.excess_percent, excessFigures(row))} % over`;
}
