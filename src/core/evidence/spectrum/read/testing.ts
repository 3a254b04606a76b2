import type { FileReading, MeasuredTrace } from '../trace.ts';
import { readInstrumentFile } from './read-file.ts';

/** For tests: a small file in JCAMP-DX, any header changed or, as undefined, left out. */
export function jcampText(
  changed: Readonly<Record<string, string | undefined>> = {},
  data = '400 10 20 30\n412 40 50 60\n424 70 80 90\n436 100 110 120\n',
  end = '##END=\n',
): string {
  const headers: Record<string, string | undefined> = {
    TITLE: 'test',
    'JCAMP-DX': '4.24',
    'DATA TYPE': 'INFRARED SPECTRUM',
    XUNITS: '1/CM',
    YUNITS: 'ABSORBANCE',
    XFACTOR: '1',
    YFACTOR: '0.01',
    FIRSTX: '400',
    LASTX: '444',
    NPOINTS: '12',
    FIRSTY: '0.1',
    XYDATA: '(X++(Y..Y))',
    ...changed,
  };
  const { XYDATA: form, ...others } = headers;
  const lines = Object.entries(others).flatMap(([label, value]) =>
    value === undefined ? [] : [`##${label}=${value}\n`],
  );
  return `${lines.join('')}${form === undefined ? '' : `##XYDATA=${form}\n`}${data}${end}`;
}

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const readText = (text: string, name?: string): FileReading =>
  readInstrumentFile(bytesOf(text), name);

/** The traces of a text that must be readable. */
export function tracesOf(text: string, name?: string): readonly MeasuredTrace[] {
  const reading = readText(text, name);
  if (!reading.ok) throw new Error(`${reading.problem.code}: ${reading.problem.message}`);
  return reading.traces;
}

export function traceOf(text: string, name?: string): MeasuredTrace {
  const [trace, ...others] = tracesOf(text, name);
  if (trace === undefined || others.length > 0) throw new Error(`${others.length + 1} traces`);
  return trace;
}

export const codesOf = (text: string): string[] => traceOf(text).warnings.map(({ code }) => code);

/** The code and the line of the refusal of a text; "read" where there is none. */
export function refusalOf(text: string): string {
  const reading = readText(text);
  if (reading.ok) return 'read';
  const { code, at } = reading.problem;
  return at === undefined ? code : `${code} ${at.line}`;
}
