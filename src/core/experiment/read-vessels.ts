import type { Section } from './outline.ts';
import type { VesselDeclaration } from './step.ts';
import type { Diagnostic } from '../diagnostic.ts';
import type { LineMap } from './text.ts';
import { readVesselPhrase, shapeOf } from './vessels.ts';

/** Reads "- receiver: 100 mL round-bottom flask, tared" lines. */
export function readVessels(
  section: Section,
  lines: LineMap,
  diagnostics: Diagnostic[],
): VesselDeclaration[] {
  const found: VesselDeclaration[] = [];
  for (const line of section.lines) {
    const item = /^\s*(?:[-*+]|\d+[.)])\s+(.+)$/.exec(line.text);
    if (!item) continue;
    const body = item[1]!
      .replace(/\*\*|`/g, '')
      .trim()
      .replace(/\.$/, '');
    const colon = body.indexOf(':');
    const span = lines.span(line.start, line.start + line.text.length);
    const named = colon >= 0 ? body.slice(0, colon).trim() : undefined;
    const phrase = readVesselPhrase(colon >= 0 ? body.slice(colon + 1) : body);
    const shape =
      shapeOf(
        colon >= 0 ? body.slice(colon + 1).replace(/\b(?:tared|with|fitted|and)\b.*$/, '') : body,
      ) ??
      phrase.shape ??
      (named === undefined ? undefined : shapeOf(named)) ??
      'other';
    // A line without a colon is apparatus that holds nothing (a thermometer), unless it is a vessel
    if (named === undefined && shape === 'other') continue;
    const name = (named ?? phrase.words.join(' ')).replace(/^the\s+/i, '').toLowerCase();
    if (found.some((vessel) => vessel.id === name)) {
      diagnostics.push({
        code: 'vessel-twice',
        severity: 'warning',
        message: `Two vessels are called “${name}”.`,
        hint: 'Give the second one a name of its own.',
        at: { line: span.line, column: 1, length: line.text.length },
      });
      continue;
    }
    found.push({
      id: name,
      name,
      shape,
      ...(phrase.capacity_mL !== undefined && { capacity_mL: phrase.capacity_mL }),
      tared: /\btared\b/i.test(body),
      origin: 'written',
      span,
    });
  }
  return found;
}
