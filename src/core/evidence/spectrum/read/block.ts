import type { Diagnostic } from '../../../diagnostic.ts';
import { warning } from './finding.ts';
import { MAX_HEADERS } from './limits.ts';
import { valueOf, type LabelledRecord } from './labelled-record.ts';

/** One data block of a file, from ##TITLE= to ##END=. */
export interface Block {
  readonly title: string;
  /** By normal label; the first of several counts, as the standard has none twice. */
  readonly headers: Readonly<Record<string, string>>;
  /** Records that hold data, and those of NTUPLES, in order. */
  readonly records: readonly LabelledRecord[];
  readonly line: number;
  readonly hasEnd: boolean;
}

export interface Blocks {
  readonly blocks: readonly Block[];
  /** What is odd about how the blocks stand together. */
  readonly warnings: readonly Diagnostic[];
}

/** Records whose values are data or belong to a page of data: never read as a header. */
export const DATA_LABELS: ReadonlySet<string> = new Set([
  'XYDATA',
  'XYPOINTS',
  'PEAKTABLE',
  'PEAKTABLES',
  'PEAKASSIGNMENTS',
  'DATATABLE',
  'RADATA',
]);

const INNER_LABELS: ReadonlySet<string> = new Set(['PAGE', 'NTUPLES']);

interface Open {
  readonly line: number;
  readonly headers: Record<string, string>;
  readonly records: LabelledRecord[];
  hasEnd: boolean;
  children: number;
  kept: number;
}

const isLink = ({ headers, records }: Open): boolean =>
  records.length === 0 && (/\bLINK\b/i.test(headers['DATATYPE'] ?? '') || 'BLOCKS' in headers);

interface Grouping {
  readonly text: string;
  readonly stack: Open[];
  readonly done: Open[];
  readonly warnings: Diagnostic[];
  tops: number;
}

function close(state: Grouping, hasEnd: boolean): void {
  const open = state.stack.pop();
  if (open === undefined) return;
  open.hasEnd = hasEnd;
  if (!isLink(open)) state.done.push(open);
  else checkCount(state, open);
}

function checkCount({ warnings }: Grouping, { headers, children, line }: Open): void {
  const said = Number(headers['BLOCKS']);
  if (!Number.isFinite(said) || said === children) return;
  const message = `The file says that it has ${said} blocks. ${children} were found.`;
  warnings.push(warning('file-blocks', { message, line }));
}

function open(state: Grouping, record: LabelledRecord): Open {
  const above = state.stack.at(-1);
  if (above !== undefined && !isLink(above)) close(state, false);
  const parent = state.stack.at(-1);
  if (parent === undefined) state.tops++;
  else parent.children++;
  const begun: Open = {
    line: record.line,
    headers: {},
    records: [],
    hasEnd: false,
    children: 0,
    kept: 0,
  };
  state.stack.push(begun);
  return begun;
}

function take(state: Grouping, record: LabelledRecord): void {
  const { label } = record;
  if (label === 'END') return close(state, true);
  const isTitle = label === 'TITLE';
  // Text between two blocks is no block of its own.
  if (!isTitle && state.stack.length === 0 && state.tops > 0) return;
  const current = isTitle || state.stack.length === 0 ? open(state, record) : state.stack.at(-1)!;
  // NPOINTS behind a PAGE is that of the page.
  const isOfPage = label === 'NPOINTS' && current.records.length > 0;
  if (DATA_LABELS.has(label) || INNER_LABELS.has(label) || isOfPage) current.records.push(record);
  const isHeader = !DATA_LABELS.has(label) && label !== 'PAGE' && !(label in current.headers);
  if (isHeader && current.kept++ < MAX_HEADERS)
    current.headers[label] = valueOf(state.text, record);
}

/** Groups records into blocks: simple files, LINK files of any depth, and files put one behind another. */
export function blocksOf(text: string, records: readonly LabelledRecord[]): Blocks {
  const state: Grouping = { text, stack: [], done: [], warnings: [], tops: 0 };
  for (const record of records) take(state, record);
  while (state.stack.length > 0) {
    const left = state.stack.pop()!;
    if (!isLink(left)) state.done.push(left);
    else checkCount(state, left);
  }
  if (state.tops > 1)
    state.warnings.push(
      warning('file-blocks', {
        message: `${state.tops} records stand one behind another without a LINK record. Each was read.`,
      }),
    );
  const blocks = state.done.map(({ headers, children: _, kept: _kept, ...block }) => ({
    ...block,
    headers,
    title: headers['TITLE'] ?? '',
  }));
  return { blocks, warnings: state.warnings };
}
