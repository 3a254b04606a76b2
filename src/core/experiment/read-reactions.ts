import type { Diagnostic } from '../diagnostic.ts';
import type { Composition } from '../chemistry/composition.ts';
import { readEquation } from '../chemistry/equation.ts';
import type { Term } from '../chemistry/equation.ts';
import { readFormula } from '../chemistry/formula.ts';
import { settle } from '../chemistry/settle.ts';
import { readReactionSmiles } from '../chemistry/reaction-smiles.ts';
import type { Substance } from '../chemistry/substance.ts';
import type { Names } from './names.ts';
import type { Section } from './outline.ts';
import type { ReactionDeclaration, ReactionTerm } from './step.ts';
import type { LineMap, Piece } from './text.ts';

interface SideTerm extends Term {
  readonly substance: ReactionTerm['substance'];
  /** Its name is not known, and that has been said. */
  readonly unknown?: boolean;
}

interface Side {
  readonly terms: readonly SideTerm[];
}

const ARROW = /->|→|⇌|=>|-->|>>|>[^>]*>|⟶|<=>|\s=\s/;

/** A line without an arrow is prose, unless it adds things up or is a bare formula. */
function looksLikeEquation(text: string): boolean {
  const bare = text.trim();
  if (/^[^\s.:]*\d\S*$/.test(bare)) return readFormula(bare).ok;
  return /\S\s\+(?:\s(?!or\b|\/)\S|$)/.test(bare) && !/[.!?]$/.test(bare);
}

function withoutArrow(text: string, start: number, lines: LineMap): Diagnostic {
  const { line, column } = lines.span(
    start + text.length - text.trimStart().length,
    start + text.trimEnd().length,
  );
  return {
    code: 'equation-unreadable',
    severity: 'error',
    message: 'This looks like an equation, and has no arrow.',
    hint: 'Write what reacts, “->”, and what forms: “A + B -> C”. A remark belongs under another heading.',
    at: { line, column, length: Math.max(1, text.trim().length) },
  };
}

/** Reads one equation a line, with its label before a colon and its remarks after semicolons. */
export function readReactions(
  section: Section,
  lines: LineMap,
  names: Names,
  diagnostics: Diagnostic[],
): ReactionDeclaration[] {
  const found: ReactionDeclaration[] = [];
  for (const line of section.lines) {
    const text = line.text
      .replace(/^\s*(?:[-*+]|\d+[.)])\s+(?=\S)/, (marker) => ' '.repeat(marker.length))
      .replace(/`|\*\*/g, ' ');
    if (text.trim() === '') continue;
    if (!ARROW.test(text)) {
      if (looksLikeEquation(text)) diagnostics.push(withoutArrow(text, line.start, lines));
      continue;
    }
    const reaction = readLine(
      { text, start: line.start },
      found.length + 1,
      lines,
      names,
      diagnostics,
    );
    if (reaction) found.push(reaction);
  }
  return found;
}

function readLine(
  line: Piece,
  number: number,
  lines: LineMap,
  names: Names,
  diagnostics: Diagnostic[],
): ReactionDeclaration | undefined {
  const label = /^\s*([A-Za-z][\w -]{0,40}?)\s*:\s+/.exec(line.text);
  const rest = label ? line.text.slice(label[0].length) : line.text;
  const [equationText, ...remarks] = rest.split(/;\s*/);
  const offset = line.start + (label?.[0].length ?? 0);
  const span = lines.span(
    line.start + (line.text.length - line.text.trimStart().length),
    line.start + line.text.trimEnd().length,
  );
  const report = (
    code: string,
    severity: Diagnostic['severity'],
    message: string,
    hint: string,
    column = 0,
    length?: number,
  ) => {
    const place = lines.span(offset + column, offset + column);
    diagnostics.push({
      code,
      severity,
      message,
      hint,
      at: {
        line: place.line,
        column: place.column,
        length: length ?? Math.max(1, equationText!.trim().length - column),
      },
    });
  };
  const { settled, said } = equationOf(equationText!, names);
  for (const complaint of said) report(...complaint);
  if (!settled) return undefined;
  const id = label ? label[1]!.toLowerCase() : `reaction ${number}`;
  const { conversion, basis } = readRemarks(remarks, names, report);
  return {
    id,
    text: rest.trim(),
    ...settled,
    conversion,
    ...(basis !== undefined && { basis }),
    span,
  };
}

type Report = (
  code: string,
  severity: Diagnostic['severity'],
  message: string,
  hint: string,
  column?: number,
  length?: number,
) => void;

type Settled = Pick<ReactionDeclaration, 'reactants' | 'products' | 'balance' | 'delivered'>;

interface ReadEquation {
  readonly settled: Settled | undefined;
  /** What is to be reported of it, wherever it stands. */
  readonly said: readonly Parameters<Report>[];
}

const EQUATIONS_REMEMBERED = 200;
const equationsBefore = new WeakMap<Names, Map<string, ReadEquation>>();

/** Read once for each set of names: elsewhere in the document one types, and the equations stay. */
function equationOf(text: string, names: Names): ReadEquation {
  const memory = equationsBefore.get(names) ?? new Map<string, ReadEquation>();
  equationsBefore.set(names, memory);
  const before = memory.get(text);
  if (before) return before;
  const said: Parameters<Report>[] = [];
  const report: Report = (...complaint) => void said.push(complaint);
  const sides = readSides(text, names, report);
  const settled = sides && numbered(sides.left, sides.right, text.trim(), report);
  const read = { settled, said };
  if (memory.size >= EQUATIONS_REMEMBERED) memory.clear();
  memory.set(text, read);
  return read;
}

function readSides(
  text: string,
  names: Names,
  report: Report,
): { left: Side; right: Side } | undefined {
  if (/>[^>\s]*>/.test(text) && !/->/.test(text))
    return readSmilesSides(text.trim(), names, report);
  const reading = readEquation(text);
  if (!reading.ok) {
    report('equation-unreadable', 'error', reading.message, reading.hint, reading.column);
    return undefined;
  }
  const side = (terms: readonly Term[]): Side => {
    const read = terms.map((term) => ({ term, reading: names.substance(term.name) }));
    for (const { term, reading: name } of read)
      if (!name.ok)
        report('substance-unknown', 'error', name.message, name.hint, term.at, term.name.length);
    return {
      terms: read.map(({ term, reading: name }) =>
        name.ok
          ? { ...term, substance: name.substance }
          : { ...term, substance: unknownSubstance(term.name), unknown: true },
      ),
    };
  };
  return { left: side(reading.equation.left), right: side(reading.equation.right) };
}

/** Stands in an equation for a name that is not known: the reaction is written all the same. */
function unknownSubstance(name: string): Substance {
  return {
    id: name.toLowerCase(),
    name,
    synonyms: [],
    state: 'unknown',
    phase: 'organic',
    origin: 'document',
    sources: {},
    hazardCodes: [],
  };
}

/** Species that a reaction SMILES repeats are one term with a coefficient. */
function readSmilesSides(
  text: string,
  names: Names,
  report: Report,
): { left: Side; right: Side } | undefined {
  const reading = readReactionSmiles(text);
  if (!reading.ok) {
    report(
      'equation-unreadable',
      'error',
      reading.message,
      'Write it as A.B>>C.D, or with names and an arrow.',
      reading.column,
    );
    return undefined;
  }
  const side = (list: readonly string[]): Side | undefined => {
    const counts = new Map<string, number>();
    for (const smiles of list) counts.set(smiles, (counts.get(smiles) ?? 0) + 1);
    const terms = [...counts].map(([name, coefficient]) => ({
      name,
      coefficient,
      reading: names.substance(name),
    }));
    if (terms.some((term) => !term.reading.ok)) return undefined;
    return {
      terms: terms.flatMap(({ name, coefficient, reading: read }) =>
        read.ok ? [{ name, coefficient, at: 0, substance: read.substance }] : [],
      ),
    };
  };
  const left = side(reading.reactants);
  const right = side(reading.products);
  return left && right ? { left, right } : undefined;
}

/** `[O]` and `[H]`: what an oxidant or a reductant delivers; their matter is drawn as left out. */
const isDelivered = (name: string): boolean => /^\[[OH]\]$/.test(name.trim());

function numbered(left: Side, right: Side, text: string, report: Report): Settled {
  const all = [...left.terms, ...right.terms];
  const compositions = all.map((term) => term.substance.composition);
  const written = all.map((term) => term.coefficient ?? 1);
  const build = (coefficients: readonly number[], kind: ReactionDeclaration['balance']) => {
    const term = (t: Side['terms'][number], i: number): ReactionTerm => ({
      coefficient: coefficients[i]!,
      substance: t.substance,
      name: t.name,
    });
    const kept = (t: ReactionTerm) => !isDelivered(t.name);
    const delivered = left.terms
      .find((t) => isDelivered(t.name))
      ?.name.trim()
      .slice(1, -1) as 'O' | 'H' | undefined;
    return {
      ...(delivered !== undefined && { delivered }),
      reactants: left.terms.map((t, i) => term(t, i)).filter(kept),
      products: right.terms.map((t, i) => term(t, i + left.terms.length)).filter(kept),
      balance: all.some((t) => isDelivered(t.name)) ? ('open' as const) : kind,
    };
  };
  if (compositions.some((c) => c === undefined)) {
    const missing = all
      .filter((t) => t.substance.composition === undefined && t.unknown !== true)
      .map((t) => t.name);
    if (missing.length > 0)
      report(
        'equation-open',
        'warning',
        `${missing.join(' and ')} ${missing.length > 1 ? 'have' : 'has'} no formula, so the equation cannot be balanced; its numbers are taken as written.`,
        'Give the SMILES or formula under Substances.',
      );
    return build(written, 'open');
  }
  const half = (side: Side) => ({
    terms: side.terms,
    compositions: side.terms.map((t) => t.substance.composition as Composition),
  });
  const answer = settle(half(left), half(right));
  if (answer.kind === 'settled')
    return build([...answer.left, ...answer.right], answer.by === 'written' ? 'written' : 'found');
  if (answer.suggestion) {
    const scaled = scaleTo(
      [...answer.suggestion.left, ...answer.suggestion.right],
      all.map((t) => t.coefficient),
    );
    report(
      'equation-unbalanced',
      'warning',
      `The numbers written do not balance. ${answer.message}`,
      `Balanced it reads ${printBalanced(left, right, scaled)}; that is used.`,
    );
    return build(scaled, 'found');
  }
  report(
    'equation-open',
    'warning',
    `“${text}” does not balance as it stands (${answer.message.replace(/[.]$/, '')}). Its numbers are taken at their word, and what it leaves out is kept in an account of its own.`,
    'Write the missing reactants and by-products if they matter; [O] and [H] stand for what an oxidant or reductant delivers.',
  );
  return build(written, 'open');
}

/** Keeps a number that was written where the balanced set can be scaled to it. */
function scaleTo(numbers: readonly number[], written: readonly (number | null)[]): number[] {
  const at = written.findIndex((n) => n !== null && n > 0);
  return at < 0 ? [...numbers] : numbers.map((n) => (n * written[at]!) / numbers[at]!);
}

function printBalanced(left: Side, right: Side, numbers: readonly number[]): string {
  const print = (terms: Side['terms'], from: number) =>
    terms
      .map(
        (t, i) =>
          `${numbers[from + i] === 1 ? '' : `${Number(numbers[from + i]!.toFixed(3))} `}${t.name}`,
      )
      .join(' + ');
  return `“${print(left.terms, 0)} -> ${print(right.terms, left.terms.length)}”`;
}

function readRemarks(
  remarks: readonly string[],
  names: Names,
  report: Report,
): { conversion: number; basis?: string } {
  let conversion = 1;
  let basis: string | undefined;
  for (const remark of remarks.map((r) => r.trim()).filter(Boolean)) {
    const share =
      /^(?:conversion|share|to)?\s*[:=]?\s*(\d+(?:[.,]\d+)?)\s*%(?:\s*conversion)?$/i.exec(remark);
    const named = /^basis\s*[:=]\s*(.+)$/i.exec(remark);
    if (share) conversion = Math.min(1, Number(share[1]!.replace(',', '.')) / 100);
    else if (named) {
      const reading = names.substance(named[1]!.trim());
      if (reading.ok) basis = reading.substance.id;
      else report('substance-unknown', 'error', reading.message, reading.hint);
    }
  }
  return { conversion, ...(basis !== undefined && { basis }) };
}
