import type { Diagnostic } from '../diagnostic.ts';
import type { Names } from './names.ts';
import type { Section } from './outline.ts';
import type { Note, ProductDeclaration } from './step.ts';
import type { LineMap } from './text.ts';

export interface ProductSection {
  readonly products: readonly ProductDeclaration[];
  readonly basis?: string;
  readonly expectations: Readonly<Record<string, string>>;
  readonly notes: readonly Note[];
}

/** Reads the product's name, "Basis: ..." and what else is expected of it. */
export function readProduct(
  section: Section,
  lines: LineMap,
  names: Names,
  diagnostics: Diagnostic[],
): ProductSection {
  const products: ProductDeclaration[] = [];
  const expectations: Record<string, string> = {};
  const notes: Note[] = [];
  let basis: string | undefined;
  for (const line of section.lines) {
    const body = line.text
      .replace(/^\s*(?:[-*+]|\d+[.)])\s+/, '')
      .replace(/\*\*/g, '')
      .trim();
    if (body === '') continue;
    const start = line.start + line.text.indexOf(body.slice(0, 1));
    const span = lines.span(start, start + body.length);
    const at = { line: span.line, column: span.column, length: body.length };
    const pair = /^([A-Z][A-Za-z -]{0,40}):\s+(.+)$/.exec(body);
    const key = pair?.[1]!.toLowerCase();
    if (key === 'basis' || key === 'yield basis') {
      const reading = names.substance(pair![2]!.replace(/\.$/, '').trim());
      if (reading.ok) basis = reading.substance.id;
      else
        diagnostics.push({
          code: 'substance-unknown',
          severity: 'error',
          message: reading.message,
          hint: reading.hint,
          at,
        });
      continue;
    }
    if (pair && !/^(?:main )?products?$/.test(key!)) {
      expectations[pair[1]!] = pair[2]!;
      continue;
    }
    const named = (pair?.[2] ?? body).replace(/\.$/, '').trim();
    const parts = names.substance(named).ok ? [named] : named.split(/\s+and\s+|;\s*/);
    const readings = parts.map((name) => ({
      name,
      reading: names.substance(name.replace(/,\s.*$/, '').trim()),
    }));
    const isName =
      pair !== null || products.length === 0 || readings.every(({ reading }) => reading.ok);
    if (!isName || body.split(' ').length > 12) {
      notes.push({ text: body, span, section: section.title });
      continue;
    }
    for (const { name, reading } of readings) {
      if (reading.ok) products.push({ substance: reading.substance, name, span });
      else
        diagnostics.push({
          code: 'substance-unknown',
          severity: 'error',
          message: reading.message,
          hint: reading.hint,
          at,
        });
    }
  }
  return { products, ...(basis !== undefined && { basis }), expectations, notes };
}
