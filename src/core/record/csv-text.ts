/** One line of a table, and the lines of text that it was read from. */
export interface CsvRow {
  readonly cells: readonly string[];
  /** One-based, of its first character. */
  readonly line: number;
  readonly text: string;
}

/** Which of comma, semicolon and tab stands most often in the first line outside quotes. */
export function separatorOf(text: string): string {
  const counts = new Map([
    [',', 0],
    [';', 0],
    ['\t', 0],
  ]);
  let quoted = false;
  for (const character of text) {
    if (character === '"') quoted = !quoted;
    else if (!quoted && (character === '\n' || character === '\r')) break;
    else if (!quoted && counts.has(character)) counts.set(character, counts.get(character)! + 1);
  }
  const [best] = [...counts].sort((a, b) => b[1] - a[1]);
  return best === undefined || best[1] === 0 ? ',' : best[0];
}

/**
 * Rows and cells after RFC 4180, with any line end. A quote that is never closed ends its row at
 * the end of the text, so that nothing is lost. Blank lines are skipped.
 */
export function parseCsv(text: string, separator: string): CsvRow[] {
  const rows: CsvRow[] = [];
  let cells: string[] = [];
  let cell = '';
  let quoted = false;
  let line = 1;
  let rowLine = 1;
  let rowStart = 0;
  const endRow = (end: number): void => {
    cells.push(cell);
    const written = text.slice(rowStart, end);
    if (written.trim() !== '') rows.push({ cells, line: rowLine, text: written });
    cells = [];
    cell = '';
  };
  for (let i = 0; i < text.length; i++) {
    const character = text[i]!;
    if (quoted) {
      if (character !== '"') cell += character;
      else if (text[i + 1] === '"') {
        cell += '"';
        i++;
      } else quoted = false;
      if (character === '\n') line++;
    } else if (character === '"' && cell === '') quoted = true;
    else if (character === separator) {
      cells.push(cell);
      cell = '';
    } else if (character === '\n' || character === '\r') {
      endRow(i);
      if (character === '\r' && text[i + 1] === '\n') i++;
      line++;
      rowLine = line;
      rowStart = i + 1;
    } else cell += character;
  }
  if (rowStart < text.length || cell !== '' || cells.length > 0) endRow(text.length);
  return rows;
}

/** A cell after RFC 4180. */
export function csvCell(text: string): string {
  return /[",;\t\r\n]/.test(text) || text !== text.trim()
    ? `"${text.replaceAll('"', '""')}"`
    : text;
}

/**
 * A spreadsheet takes a cell that begins with one of these signs for a formula and runs it.
 * An apostrophe before it keeps it text; one that was there already is doubled, to be told apart.
 */
const FORMULA = /^[=+\-@\t\r']/;

export function asPlainText(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

export function fromPlainText(text: string): string {
  return text.startsWith("'") && FORMULA.test(text.slice(1)) ? text.slice(1) : text;
}
