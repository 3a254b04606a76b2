import type { Block } from './block.ts';
import { valueOf, type LabelledRecord } from './labelled-record.ts';

/** One table of data of a block, and the headers that belong to it. */
export interface Series {
  /** "XYDATA", "PEAKTABLE". */
  readonly label: string;
  /** The variables as written in parentheses, without blanks: "X++(Y..Y)", "XY..XY", "XYMA". */
  readonly form: string;
  readonly headers: Readonly<Record<string, string>>;
  /** What tells this page from the others: "N=1". */
  readonly page: string;
  /** Where the label, the data and the end are in the text; the line is that of the label. */
  readonly at: number;
  readonly line: number;
  readonly start: number;
  readonly end: number;
  /** Another record follows, so that this one is not cut off. */
  readonly isFollowed: boolean;
}

/** The form stands in parentheses behind the label; data may follow on the same line. */
function formOf(text: string, record: LabelledRecord): { form: string; start: number } {
  const newline = text.indexOf('\n', record.start);
  const lineEnd = newline < 0 || newline > record.end ? record.end : newline;
  const line = text.slice(record.start, Math.min(lineEnd, record.start + 200));
  const open = line.indexOf('(');
  if (open < 0) return { form: '', start: record.start };
  let depth = 0;
  let close = open;
  for (; close < line.length; close++) {
    if (line[close] === '(') depth++;
    if (line[close] === ')' && --depth === 0) break;
  }
  const form = line
    .slice(open + 1, close)
    .replace(/\s/g, '')
    .toUpperCase();
  // Behind the form of a page its plot descriptor stands: ", XYDATA".
  const isTable = record.label === 'DATATABLE' || close >= line.length;
  return { form, start: isTable ? lineEnd : record.start + close + 1 };
}

const listed = (value: string | undefined): string[] =>
  (value ?? '')
    .slice(0, 2000)
    .split(',')
    .map((item) => item.trim());

/** What an NTUPLES header says of each variable, and under which simple label it is known. */
const OF_X: readonly (readonly [simple: string, tuple: string])[] = [
  ['XUNITS', 'UNITS'],
  ['XFACTOR', 'FACTOR'],
  ['FIRSTX', 'FIRST'],
  ['LASTX', 'LAST'],
];

const OF_Y: readonly (readonly [simple: string, tuple: string])[] = [
  ['YUNITS', 'UNITS'],
  ['YFACTOR', 'FACTOR'],
  ['FIRSTY', 'FIRST'],
  ['MAXY', 'MAX'],
  ['MINY', 'MIN'],
];

/** The headers that a page would have as a file of its own. */
function pageHeaders(block: Block, symbol: string, isOnly: boolean): Record<string, string> {
  const symbols = listed(block.headers['SYMBOL']).map((letter) => letter.toUpperCase());
  const headers: Record<string, string> = { ...block.headers };
  const put = (pairs: typeof OF_X, variable: string) => {
    const place = symbols.indexOf(variable);
    for (const [simple, tuple] of pairs) {
      const value = place < 0 ? '' : (listed(block.headers[tuple])[place] ?? '');
      if (value !== '') headers[simple] = value;
      else if (place >= 0) delete headers[simple];
    }
  };
  put(OF_X, 'X');
  put(isOnly ? OF_Y : OF_Y.slice(0, 2), symbol);
  const points = listed(block.headers['VARDIM'])[symbols.indexOf(symbol)];
  if (points !== undefined && points !== '') headers['NPOINTS'] = points;
  else delete headers['NPOINTS'];
  // DELTAX of the block may be that of any variable; the pages have FIRST, LAST and the count.
  delete headers['DELTAX'];
  return headers;
}

const lettersOf = (form: string): string => form.replace(/[^A-Z]/g, '');

/** The dependent variable of a page: the letter of (X++(R..R)) or of (XY..XY) that is not X. */
const dependent = (form: string): string => lettersOf(form).replaceAll('X', '').slice(0, 1);

function isImaginary(block: Block, symbol: string): boolean {
  const place = listed(block.headers['SYMBOL']).indexOf(symbol);
  const name = listed(block.headers['VARNAME'])[place] ?? '';
  return /IMAG/i.test(name) || (symbol === 'I' && /NMR/i.test(block.headers['DATATYPE'] ?? ''));
}

/** The tables of a block in order. Of complex data the imaginary pages are left out. */
export function seriesOf(text: string, block: Block): Series[] {
  const found: Series[] = [];
  let page = '';
  let ownPoints: string | undefined;
  const tables = block.records.filter(({ label }) => label === 'DATATABLE');
  const symbols = tables.map((record) => dependent(formOf(text, record).form));
  block.records.forEach((record) => {
    const { label, at, line, end } = record;
    if (label === 'NPOINTS') ownPoints = valueOf(text, record);
    if (label === 'PAGE') [page, ownPoints] = [valueOf(text, record), undefined];
    if (label === 'PAGE' || label === 'NTUPLES' || label === 'NPOINTS') return;
    const { form, start } = formOf(text, record);
    const base = { label, form, at, line, start, end, isFollowed: end < text.length };
    if (label !== 'DATATABLE') {
      found.push({ ...base, headers: block.headers, page: '' });
      return;
    }
    const symbol = dependent(form);
    if (isImaginary(block, symbol)) return;
    const isOnly = symbols.filter((other) => other === symbol).length === 1;
    const headers = pageHeaders(block, symbol, isOnly);
    if (ownPoints !== undefined) headers['NPOINTS'] = ownPoints;
    else if (!form.includes('++') && !isOnly) delete headers['NPOINTS'];
    found.push({ ...base, headers, page });
  });
  return found;
}
