import type { Diagnostic, Severity } from '../../../diagnostic.ts';

/** What a reader of files says: the sentence, what to do, and the line of the file. */
export interface Said {
  readonly message: string;
  readonly hint?: string;
  readonly line?: number;
}

function found(severity: Severity, code: string, { message, hint, line }: Said): Diagnostic {
  return {
    code,
    severity,
    message,
    ...(hint === undefined ? {} : { hint }),
    ...(line === undefined ? {} : { at: { line, column: 1 } }),
  };
}

/** A reason not to read: the file or this part of it is left out. */
export const refusal = (code: string, said: Said): Diagnostic => found('error', code, said);

/** Read, but somebody should look. */
export const warning = (code: string, said: Said): Diagnostic => found('warning', code, said);

/** Read; harmless, and worth knowing. */
export const note = (code: string, said: Said): Diagnostic => found('note', code, said);

/** A number as a sentence has it: eight figures, no needless zeros. */
export const shown = (value: number): string => String(Number(value.toPrecision(8)));

/** One-based number of the line that holds an offset. Counted only when somebody must be told. */
export function lineAt(text: string, offset: number): number {
  let line = 1;
  for (let at = text.indexOf('\n'); at >= 0 && at < offset; at = text.indexOf('\n', at + 1)) line++;
  return line;
}
