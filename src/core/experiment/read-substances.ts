import type { Diagnostic } from '../diagnostic.ts';
import { readAmount } from '../quantity/amount.ts';
import type { SubstanceFacts, Substance } from '../chemistry/substance.ts';
import { findSubstance } from '../chemistry/find.ts';
import { makeSubstance, tableWith } from '../chemistry/substance.ts';
import type { Section } from './outline.ts';
import type { LineMap } from './text.ts';

interface Draft {
  name: string;
  synonyms: string[];
  smiles?: string;
  formula?: string;
  cas?: string;
  state?: 'solid' | 'liquid' | 'gas';
  density_g_mL?: number;
  densityT_C?: number;
  meltingPoint_C?: number;
  boilingPoint_C?: number;
  assay_percent?: number;
}

export interface SubstancesSection {
  readonly substances: readonly Substance[];
  /** Assays of this laboratory's bottles, by substance id. */
  readonly assays: ReadonlyMap<string, number>;
}

/** Reads "- name: SMILES CCO; liquid; density 0.79 g/mL; bp 78 °C" lines. */
export function readSubstances(
  section: Section,
  lines: LineMap,
  diagnostics: Diagnostic[],
): SubstancesSection {
  const found: Substance[] = [];
  const assays = new Map<string, number>();
  for (const line of section.lines) {
    const item = /^\s*(?:[-*+]|\d+[.)])\s+(.+)$/.exec(line.text);
    if (!item) continue;
    const body = item[1]!.replace(/\*\*|`/g, '').trim();
    const at = lines.span(line.start, line.start + line.text.length);
    const place = { line: at.line, column: 1, length: line.text.length };
    const colon = /:\s+/.exec(body);
    if (!colon) continue;
    const draft: Draft = { name: body.slice(0, colon.index).trim(), synonyms: [] };
    for (const fact of body
      .slice(colon.index + colon[0].length)
      .split(
        /;\s+|,\s+(?=(?:smiles|formula|cas|density|d\b|mp|bp|m\.p|b\.p|liquid|solid|gas|assay|purity|also|melting|boiling|state)\b)/i,
      )) {
      const trouble = readFact(fact.trim().replace(/\.$/, ''), draft);
      if (trouble)
        diagnostics.push({
          code: 'substance-fact',
          severity: 'warning',
          message: trouble,
          hint: 'Known: SMILES, formula, CAS, density, mp, bp, also called, and solid, liquid or gas; parted by semicolons.',
          at: place,
        });
    }
    const { assay_percent, ...facts } = draft;
    const made = makeSubstance({
      ...known(facts),
      ...(facts as SubstanceFacts),
      synonyms: [...(known(facts).synonyms ?? []), ...facts.synonyms],
      origin: 'document',
      source: 'the document',
    });
    if (made.ok) {
      found.push(made.substance);
      if (assay_percent !== undefined) assays.set(made.substance.id, assay_percent);
    } else
      diagnostics.push({
        code: 'substance-unreadable',
        severity: 'error',
        message: made.message,
        hint: made.hint,
        at: place,
      });
  }
  return { substances: found, assays };
}

/** A line that only adds to what the table knows (another density) keeps the rest. */
function known(draft: Omit<Draft, 'assay_percent'>): Partial<SubstanceFacts> {
  if (draft.smiles !== undefined || draft.formula !== undefined) return {};
  const found = findSubstance(tableWith([]), draft.name);
  if (found.kind !== 'found') return {};
  const {
    composition: _c,
    molarMass_g_mol: _m,
    molarMassU_g_mol: _u,
    id: _i,
    origin: _o,
    sources: _s,
    ...facts
  } = found.substance;
  return { ...facts, synonyms: [...facts.synonyms, facts.name] };
}

const FACTS: readonly (readonly [RegExp, (value: string, draft: Draft) => string | undefined])[] = [
  [/^smiles\s*[:=]?\s*(\S+)$/i, (value, draft) => void (draft.smiles = value)],
  [/^formula\s*[:=]?\s*(\S.*)$/i, (value, draft) => void (draft.formula = value)],
  [/^cas\s*(?:no\.?|number)?\s*[:=]?\s*([\d-]+)$/i, (value, draft) => void (draft.cas = value)],
  [
    /^(?:also called|also|aka|synonyms?|or)\s*[:=]?\s*(.+)$/i,
    (value, draft) => void draft.synonyms.push(...value.split(/\s*,\s+/)),
  ],
  [
    /^(?:state\s*[:=]?\s*)?(solid|liquid|gas)$/i,
    (value, draft) => void (draft.state = value.toLowerCase() as 'solid'),
  ],
  [
    /^(?:assay|purity)\s*[:=]?\s*(\d+(?:[.,]\d+)?)\s*%.*$/i,
    (value, draft) => void (draft.assay_percent = Number(value.replace(',', '.'))),
  ],
  [/^(?:density|d)\s*[:=]?\s*(.+)$/i, readDensity],
  [
    /^(?:mp|m\.p\.?|melting point|melting range)\s*[:=]?\s*(.+)$/i,
    (value, draft) => readPoint(value, (t) => void (draft.meltingPoint_C = t)),
  ],
  [
    /^(?:bp|b\.p\.?|boiling point|boiling range)\s*[:=]?\s*(.+)$/i,
    (value, draft) => readPoint(value, (t) => void (draft.boilingPoint_C = t)),
  ],
];

function readFact(text: string, draft: Draft): string | undefined {
  if (text === '') return undefined;
  for (const [pattern, take] of FACTS) {
    const match = pattern.exec(text);
    if (match) return take(match[1]!.trim(), draft);
  }
  return /^(?:source|from|supplier|hazards?|see|white|colou?rless|yellow|a )/i.test(text)
    ? undefined
    : `“${text}” says nothing of ${draft.name} that is read.`;
}

function readDensity(value: string, draft: Draft): string | undefined {
  const match =
    /^(\d+(?:[.,]\d+)?)\s*(?:g\s*(?:\/\s*mL|mL-1|mL⁻¹|\/\s*cm3|\/\s*cm³|cm-3|cm⁻³))?(?:\s*(?:at|\(|@)\s*(\d+)\s*°C\)?)?$/i.exec(
      value,
    );
  if (!match) return `“${value}” is no density; write it as 0.92 g/mL.`;
  draft.density_g_mL = Number(match[1]!.replace(',', '.'));
  if (match[2] !== undefined) draft.densityT_C = Number(match[2]);
  return undefined;
}

/** A point; of a range, the middle. Decomposition and pressure remarks are left aside. */
function readPoint(value: string, take: (temperature_C: number) => void): string | undefined {
  const amount = readAmount(value.replace(/\s*\(?(?:dec(?:omp)?\.?|decomposes)\)?.*$/i, '').trim());
  if (amount.kind !== 'temperature') return `“${value}” is no temperature; write it as 123 °C.`;
  take(amount.high === undefined ? amount.value : (amount.value + amount.high) / 2);
  return undefined;
}
