import type { Diagnostic } from '../diagnostic.ts';
import { byImportance } from '../diagnostic.ts';
import { tableWith } from '../chemistry/substance.ts';
import type { Substance } from '../chemistry/substance.ts';
import { withFixes } from './fixes.ts';
import { namesOf } from './names.ts';
import type { Names } from './names.ts';
import { outline } from './outline.ts';
import type { Section, SectionKind } from './outline.ts';
import { readProcedure } from './procedure.ts';
import { sentenceReader } from './procedure/sentence-reader.ts';
import type { SentenceReader } from './procedure/sentence-reader.ts';
import { readProduct } from './read-product.ts';
import type { ProductSection } from './read-product.ts';
import { readReactions } from './read-reactions.ts';
import { readSubstances } from './read-substances.ts';
import { readVessels } from './read-vessels.ts';
import { vocabularyOf } from './sentence/vocabulary.ts';
import type {
  Experiment,
  Note,
  ProductDeclaration,
  ReactionDeclaration,
  VesselDeclaration,
} from './step.ts';
import { lineMap } from './text.ts';
import type { LineMap } from './text.ts';

/** Past these a document is refused whole, with a reason. */
export const LIMITS = { characters: 2_000_000, lines: 20_000, steps: 5000 } as const;

/**
 * Reads a document into its tree. Never throws: what is wrong comes back as diagnostics, beside
 * everything that could be read. The same text gives the same tree.
 */
export function readExperiment(text: string): Experiment {
  const refusal = refuse(text);
  if (refusal) return { ...EMPTY, diagnostics: [refusal] };
  const normal = text.replace(/^\uFEFF/, '');
  const lines = lineMap(normal);
  const parts = outline(normal);
  const diagnostics: Diagnostic[] = [];
  const of = (kind: SectionKind) => parts.sections.filter((section) => section.kind === kind);
  const declared = of('substances').map((section) => readSubstances(section, lines, diagnostics));
  const substances = declared.flatMap((section) => section.substances);
  const assays = new Map(declared.flatMap((section) => [...section.assays]));
  const vessels = of('vessels').flatMap((section) => readVessels(section, lines, diagnostics));
  const names = namesWith(substances);
  const reactions = of('reaction').flatMap((section) =>
    readReactions(section, lines, names, diagnostics),
  );
  const product = productOf(of('product'), reactions, lines, names, diagnostics);
  const called = product.products.flatMap((p) => [p.name, p.substance.name]);
  const reader = readerWith(
    names,
    vessels,
    called.map((name) => name.toLowerCase()),
  );
  const lookUp: Parameters<typeof readProcedure>[3]['lookUp'] = (raw) => {
    const given = {
      ...(raw.purity_percent !== undefined && { purity_percent: raw.purity_percent }),
      ...(raw.density_g_mL !== undefined && { density_g_mL: raw.density_g_mL }),
    };
    const reading = names.material(raw.name, given);
    const assay =
      reading.ok && raw.purity_percent === undefined && reading.material.strength === undefined
        ? assays.get(reading.material.substance.id)
        : undefined;
    return assay === undefined
      ? reading
      : names.material(raw.name, { ...given, purity_percent: assay });
  };
  const growing = [...vessels];
  const procedures = of('procedure').map((section) =>
    readProcedure(section, lines, reader, { lines, vessels: growing, lookUp, diagnostics }),
  );
  diagnostics.push(...missing(parts.title, of('procedure'), reactions, product.products));
  const steps = procedures.flatMap((p) => p.steps);
  const said = withFixes(diagnostics, {
    text: normal,
    names,
    vessels,
    uses: () => steps.flatMap((step) => step.slots.materials ?? []),
    reads: (sentence) => reader(sentence) !== undefined,
  });
  return {
    title: parts.title || 'Untitled experiment',
    header: parts.header,
    reactions,
    substances,
    vessels: growing,
    steps,
    products: product.products,
    ...(product.basis !== undefined && { basis: product.basis }),
    expectations: product.expectations,
    notes: [
      ...proseOf(parts.sections, lines),
      ...product.notes,
      ...procedures.flatMap((p) => p.notes),
    ],
    diagnostics: said.sort(byImportance),
  };
}

const EMPTY: Experiment = {
  title: 'Untitled experiment',
  header: {},
  reactions: [],
  substances: [],
  vessels: [],
  steps: [],
  products: [],
  expectations: {},
  notes: [],
  diagnostics: [],
};

function refuse(text: string): Diagnostic | undefined {
  const at = { line: 1, column: 1 };
  const hint = 'One document holds one experiment; part it, or take pictures and tables out.';
  if (text.length > LIMITS.characters)
    return {
      code: 'document-too-large',
      severity: 'error',
      message: `The document has ${text.length.toLocaleString('en')} characters; ${LIMITS.characters.toLocaleString('en')} are read.`,
      hint,
      at,
    };
  let lines = 1;
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) lines++;
  if (lines > LIMITS.lines)
    return {
      code: 'document-too-large',
      severity: 'error',
      message: `The document has ${lines.toLocaleString('en')} lines; ${LIMITS.lines.toLocaleString('en')} are read.`,
      hint,
      at,
    };
  const items = text.match(/^\s*(?:\d+[.)]|[-*+])\s+/gm)?.length ?? 0;
  if (items > LIMITS.steps)
    return {
      code: 'document-too-large',
      severity: 'error',
      message: `The document has ${items.toLocaleString('en')} list items; ${LIMITS.steps.toLocaleString('en')} are read.`,
      hint,
      at,
    };
  if (text.includes('\u0000'))
    return {
      code: 'document-not-text',
      severity: 'error',
      message: 'This is not a text file.',
      hint: 'Save the experiment as Markdown (plain text, UTF-8).',
      at,
    };
  return undefined;
}

const VOCABULARIES = 4;
const namesBefore = new Map<string, Names>();
const readersBefore = new WeakMap<Names, Map<string, SentenceReader>>();

/** What was made under the key, for the last few keys. */
function remembered<T>(memory: Map<string, T>, key: string, make: () => T): T {
  const before = memory.get(key);
  if (before !== undefined) return before;
  const made = make();
  if (memory.size >= VOCABULARIES) memory.delete(memory.keys().next().value!);
  memory.set(key, made);
  return made;
}

/** While someone types in the procedure, substances stay what they are, and what was looked up too. */
function namesWith(substances: readonly Substance[]): Names {
  const key = JSON.stringify(substances.map(({ composition: _, ...facts }) => facts));
  return remembered(namesBefore, key, () => namesOf(tableWith(substances)));
}

function readerWith(
  names: Names,
  vessels: readonly VesselDeclaration[],
  products: readonly string[],
): SentenceReader {
  const key = JSON.stringify([vessels.map(({ span: _, ...facts }) => facts), products]);
  const readers = readersBefore.get(names) ?? new Map<string, SentenceReader>();
  readersBefore.set(names, readers);
  return remembered(readers, key, () =>
    sentenceReader(vocabularyOf({ vessels, products, knows: names.knows })),
  );
}

/** Where no product is named, it is the first product of the last reaction that holds carbon. */
function productOf(
  sections: readonly Section[],
  reactions: readonly ReactionDeclaration[],
  lines: LineMap,
  names: Names,
  diagnostics: Diagnostic[],
): ProductSection {
  const read = sections.map((section) => readProduct(section, lines, names, diagnostics));
  const products: ProductDeclaration[] = read.flatMap((r) => r.products);
  const last = reactions.at(-1);
  if (products.length === 0 && last) {
    const guess =
      last.products.find((term) => term.substance.composition?.counts.has('C')) ?? last.products[0];
    if (guess) products.push({ substance: guess.substance, name: guess.name, span: last.span });
  }
  const basis = read.find((r) => r.basis !== undefined)?.basis;
  return {
    products,
    ...(basis !== undefined && { basis }),
    notes: read.flatMap((r) => r.notes),
    expectations: Object.assign({}, ...read.map((r) => r.expectations)) as Record<string, string>,
  };
}

function proseOf(sections: readonly Section[], lines: LineMap): Note[] {
  const notes: Note[] = [];
  for (const section of sections) {
    if (section.kind !== 'prose') continue;
    for (const line of section.lines)
      if (line.text.trim() !== '')
        notes.push({
          text: line.text.trim(),
          span: lines.span(line.start, line.start + line.text.length),
          section: section.title,
        });
  }
  return notes;
}

function missing(
  title: string,
  procedures: readonly Section[],
  reactions: readonly ReactionDeclaration[],
  products: readonly ProductDeclaration[],
): Diagnostic[] {
  const found: Diagnostic[] = [];
  const at = { line: 1, column: 1 };
  if (title === '')
    found.push({
      code: 'title-missing',
      severity: 'note',
      message: 'The experiment has no title.',
      hint: 'Begin with “# ” and what is made.',
      at,
    });
  if (procedures.length === 0)
    found.push({
      code: 'procedure-missing',
      severity: 'warning',
      message: 'There is no Procedure section yet.',
      hint: 'Write “## Procedure” and a numbered list of sentences.',
      at,
    });
  if (reactions.length === 0 && products.length === 0)
    found.push({
      code: 'reaction-missing',
      severity: 'note',
      message: 'No reaction is declared, so nothing limits and there is no theoretical yield.',
      hint: 'Write “## Reaction” and an equation such as “A + B -> C”.',
      at,
    });
  return found;
}
