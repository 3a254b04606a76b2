import type { Basis } from '../../core/ledger/posting.ts';
import { formatNumber } from '../../core/quantity/print.ts';
import { excessFigures, figuresIn } from '../../core/report/reagents/reagents.ts';
import type {
  ReagentProductRow,
  ReagentRow,
  ReagentTable,
} from '../../core/report/reagents/reagents.ts';
import type { Paper } from './ink.ts';
import { legend, marked, setBy } from './number.ts';
import { paintTable } from './table.ts';
import type { Column } from './table.ts';
import { keepAmounts, paragraph } from './text.ts';

type Measure = 'mass' | 'volume' | 'amount' | 'equivalents';

/**
 * The amount that was written or weighed is as well known as the charge; what is worked out from it
 * through a density or a strength that was assumed is assumed.
 */
function basisOf(row: ReagentRow, measure: Measure): Basis {
  if (row.measuredAs === measure) return row.basis === 'measured' ? 'measured' : 'planned';
  if (row.measuredAs === 'excess' || row.measuredAs === 'unquantified') return 'assumed';
  return row.basis === 'assumed' ? 'assumed' : 'planned';
}

const NUMBERS: Record<
  Measure,
  { head: string; of: (row: ReagentRow) => number | null; spare?: number }
> = {
  mass: { head: 'g', of: (row) => row.mass_g },
  volume: { head: 'mL', of: (row) => row.volume_mL },
  amount: { head: 'mmol', of: (row) => row.amount_mmol },
  equivalents: { head: 'equiv.', of: (row) => row.equivalents, spare: 0.5 },
};

const CHEMICAL: ReadonlySet<Measure> = new Set<Measure>(['amount', 'equivalents']);

/** Of what only dissolves, washes or dries nobody wants moles. */
const MEDIA: ReadonlySet<ReagentRow['role']> = new Set<ReagentRow['role']>([
  'solvent',
  'wash',
  'rinse',
  'extraction solvent',
  'recrystallisation solvent',
  'drying agent',
  'filter aid',
]);

function numberText(row: ReagentRow, measure: Measure): string {
  if (CHEMICAL.has(measure) && MEDIA.has(row.role)) return '';
  const value = NUMBERS[measure].of(row);
  if (value === null || !(value > 0)) return '';
  return marked(formatNumber(value, figuresIn(row, measure)), basisOf(row, measure));
}

/** A word, not a colour: "limits", "in excess", "45 % over". */
function verdictOf(row: ReagentRow): string {
  if (row.decides) return 'limits';
  if (row.limits) return `limits ${row.reaction}`;
  if (row.measuredAs === 'excess') return 'in excess';
  if (row.excess_percent === null) return '';
  if (row.excess_percent < 0.05) return 'just enough';
  return row.excess_percent > 1000
    ? `${formatNumber(1 + row.excess_percent / 100, 2)} × the need`
    : `${formatNumber(row.excess_percent, excessFigures(row))} % over`;
}

/** Below this the words at the right are broken. */
const NARROW = 80;

const MEASURES: readonly Measure[] = ['mass', 'volume', 'amount', 'equivalents'];

export function paintReagents(table: ReagentTable, paper: Paper): string {
  if (table.rows.length === 0) return 'Nothing is taken from the stock.';
  const numbers = MEASURES.map((measure): Column<ReagentRow> => ({
    head: NUMBERS[measure].head,
    cell: (row) => numberText(row, measure),
    align: 'decimal',
    set: (row) => setBy(basisOf(row, measure), paper.ink),
    spare: NUMBERS[measure].spare ?? 0,
  }));
  const columns: Column<ReagentRow>[] = [
    {
      head: 'material',
      cell: (row) => keepAmounts(row.material),
      least: 16,
      set: (row) => (row.limits ? paper.ink.bold : (text) => text),
    },
    { head: 'for', cell: (row) => row.role, least: 18, spare: 2 },
    {
      head: 'g/mol',
      cell: (row) => row.molarMass_g_mol?.toFixed(2) ?? '',
      align: 'decimal',
      spare: 3,
    },
    ...numbers,
    {
      head: '',
      cell: verdictOf,
      ...(paper.width < NARROW ? { least: 7 } : {}),
      set: (row) => (row.limits ? paper.ink.bold : (text) => text),
    },
    { head: 'steps', cell: (row) => row.steps.join(', '), least: 7, spare: 1 },
  ];
  const { text, leftOut } = paintTable(table.rows, columns, paper);
  const bases = table.rows.flatMap((row) =>
    MEASURES.flatMap((measure) => (numberText(row, measure) === '' ? [] : [basisOf(row, measure)])),
  );
  const parts = [text, '', paintProducts(table.products, paper), '', legend(bases, paper)];
  if (leftOut.length > 0) parts.push(`Not shown on so narrow a page: ${leftOut.join(', ')}.`);
  const assumed = assumptionsOf(table);
  if (assumed.length > 0) parts.push('', paper.ink.bold('Assumed'));
  parts.push(...assumed.map((one) => paper.ink.italic(paragraph(one, paper.width, '  ~ '))));
  return parts
    .filter((part, i) => part !== '' || parts[i - 1] !== '')
    .join('\n')
    .trimEnd();
}

function paintProducts(products: readonly ReagentProductRow[], paper: Paper): string {
  if (products.length === 0) return '';
  const columns: Column<ReagentProductRow>[] = [
    { head: 'forms, in theory', cell: (row) => row.name, least: 16 },
    { head: 'as', cell: (row) => row.role },
    { head: 'g/mol', cell: (row) => row.molarMass_g_mol?.toFixed(2) ?? '', align: 'decimal' },
    {
      head: 'g',
      cell: (row) => (row.mass_g === null ? '' : formatNumber(row.mass_g, 3)),
      align: 'decimal',
    },
    { head: 'mmol', cell: (row) => formatNumber(row.amount_mmol, 3), align: 'decimal' },
  ];
  return paintTable(products, columns, paper).text;
}

/** Each assumption once, with the materials that it is made for: "ether, dry ether: density ...". */
function assumptionsOf({ rows }: ReagentTable): string[] {
  const named = new Map<string, Set<string>>();
  for (const { material, assumed } of rows)
    for (const said of assumed) {
      const prefix = `${material}: `;
      const text = said.startsWith(prefix) ? said.slice(prefix.length) : said;
      named.set(text, (named.get(text) ?? new Set()).add(material));
    }
  return [...named].map(([text, materials]) => `${[...materials].join(', ')}: ${text}`);
}
