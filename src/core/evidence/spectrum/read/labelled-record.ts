/** One labelled data record of JCAMP-DX: ##LABEL= value, up to the next label. */
export interface LabelledRecord {
  /** As the standard compares labels: upper case, without spaces, _, / and -. */
  readonly label: string;
  /** Where the label begins, and on which line of the text, counted from 1. */
  readonly at: number;
  readonly line: number;
  /** Where the value begins and ends in the text. */
  readonly start: number;
  readonly end: number;
}

export const normalLabel = (written: string): string =>
  written.toUpperCase().replace(/[ \t_/-]/g, '');

/** A label longer than this is no label but a damaged file. */
const MAX_LABEL = 100;

function beginsLine(text: string, at: number): boolean {
  let before = at - 1;
  while (before >= 0 && (text.charCodeAt(before) === 32 || text.charCodeAt(before) === 9)) before--;
  return before < 0 || text.charCodeAt(before) === 10;
}

/** Every record of a text, in order. Comments ($$) that hold a ## do not begin a record. */
export function recordsOf(text: string, from: number): LabelledRecord[] {
  const begins: number[] = [];
  for (let at = text.indexOf('##', from); at >= 0; at = text.indexOf('##', at + 2))
    if (at === from || beginsLine(text, at)) begins.push(at);
  let [line, counted] = [1, text.indexOf('\n')];
  return begins.map((at, i) => {
    for (; counted >= 0 && counted < at; counted = text.indexOf('\n', counted + 1)) line++;
    const end = begins[i + 1] ?? text.length;
    const lineEnd = text.indexOf('\n', at);
    const written = text.slice(at + 2, Math.min(lineEnd < 0 ? end : lineEnd, at + 2 + MAX_LABEL));
    const equals = written.indexOf('=');
    const label = normalLabel((equals < 0 ? written : written.slice(0, equals)).trim());
    return {
      label,
      at,
      line,
      start: Math.min(end, at + 2 + (equals < 0 ? written.length : equals + 1)),
      end,
    };
  });
}

/** The value of a record as people read it: without comments, lines trimmed, no empty ones. */
export function valueOf(text: string, { start, end }: LabelledRecord): string {
  return text
    .slice(start, end)
    .split('\n')
    .map((line) => {
      const comment = line.indexOf('$$');
      return (comment < 0 ? line : line.slice(0, comment)).trim();
    })
    .filter((line) => line !== '')
    .join('\n');
}
