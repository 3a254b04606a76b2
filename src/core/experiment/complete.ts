import { completions } from '../chemistry/find.ts';
import { tableWith } from '../chemistry/substance.ts';
import type { SubstanceTable } from '../chemistry/substance.ts';
import { outline } from './outline.ts';
import type { Section } from './outline.ts';
import { readSubstances } from './read-substances.ts';
import { readVessels } from './read-vessels.ts';
import { MANNERS } from './sentence/manner.ts';
import type { VesselDeclaration } from './step.ts';
import { lineMap } from './text.ts';
import { VERBS } from './verbs/index.ts';
import type { ArgumentKind, Verb } from './verbs/verb.ts';

export interface CompletionOption {
  readonly text: string;
  readonly label: string;
  readonly kind: 'verb' | 'material' | 'vessel' | 'section' | 'clause' | 'unit';
}

export interface CompletionList {
  /** The stretch of the document that an option takes the place of. */
  readonly from: number;
  readonly to: number;
  readonly options: readonly CompletionOption[];
}

const MOST = 40;
const SECTIONS = ['Reaction', 'Substances', 'Vessels', 'Procedure', 'Product'];
const UNITS = ['g', 'mg', 'mL', 'mmol', 'equiv', 'min', 'h', '°C', 'M', '%', '× '];
const CONTENTS = [
  'the mixture',
  'the solution',
  'the solid',
  'the crystals',
  'the filtrate',
  'the mother liquor',
  'the organic layer',
  'the aqueous layer',
  'the upper layer',
  'the lower layer',
  'the extracts',
  'the residue',
  'the crude product',
];

/** What may come next at a place of a document that is being written. Pure, and quick enough for every key. */
export function completeAt(text: string, offset: number): CompletionList {
  const at = Math.max(0, Math.min(offset, text.length));
  const start = text.lastIndexOf('\n', at - 1) + 1;
  const line = text.slice(start, at);
  const heading = /^#{1,6}\s*(.*)$/.exec(line);
  if (heading) return headings(text, start, at, heading[1]!);
  const parts = outline(text.slice(0, at));
  const section = parts.sections.at(-1);
  if (section?.kind === 'procedure') return inProcedure(text, start, at);
  const named = section?.kind === 'reaction' || section?.kind === 'product';
  return named ? namesAt(text, at) : empty(at);
}

const empty = (at: number): CompletionList => ({ from: at, to: at, options: [] });

function headings(text: string, start: number, at: number, typed: string): CompletionList {
  const there = new Set(outline(text.slice(0, start)).sections.map(({ title }) => title));
  const options = SECTIONS.filter((title) => !there.has(title) && begins(title, typed)).map(
    (title): CompletionOption => ({ text: `## ${title}`, label: title, kind: 'section' }),
  );
  return { from: start, to: at, options };
}

/** In an equation or a product line: substances by the words since the last sign. */
function namesAt(text: string, at: number): CompletionList {
  const line = text.slice(text.lastIndexOf('\n', at - 1) + 1, at);
  const typed = /(?:^|[+>:;]|->)\s*((?:\d+\s+)?[^+>:;]*)$/.exec(line)?.[1] ?? '';
  const word = typed.replace(/^\d+\s+/, '');
  return { from: at - word.length, to: at, options: substancesBeginning(tableOf(text), word) };
}

function begins(word: string, typed: string): boolean {
  return word.toLowerCase().startsWith(typed.trimStart().toLowerCase());
}

function tableOf(text: string): SubstanceTable {
  const lines = lineMap(text);
  const sections = outline(text).sections.filter(({ kind }) => kind === 'substances');
  return tableWith(sections.flatMap((section) => readSubstances(section, lines, []).substances));
}

function vesselsOf(text: string): VesselDeclaration[] {
  const lines = lineMap(text);
  const of = (section: Section) => readVessels(section, lines, []);
  return outline(text)
    .sections.filter(({ kind }) => kind === 'vessels')
    .flatMap(of);
}

function substancesBeginning(table: SubstanceTable, typed: string): CompletionOption[] {
  const found =
    typed.trim() === ''
      ? table.own.map((substance) => ({ text: substance.name, substance }))
      : completions(table, typed, MOST);
  return found.map(({ text, substance }) => ({
    text,
    label: text === substance.name ? text : `${text} (${substance.name})`,
    kind: 'material',
  }));
}

/** The part of the line that belongs to the sentence at hand. */
function sentenceIn(line: string): string {
  const item = line.replace(/^\s*(?:\d+[.)]|[-*+])\s*/, '');
  return item.slice(/^(?:.*[.;]\s+)?/.exec(item)![0].length);
}

interface Begun {
  readonly verb: Verb;
  readonly rest: string;
}

interface Wanted {
  readonly kinds: readonly ArgumentKind[];
  readonly typed: string;
}

function inProcedure(text: string, start: number, at: number): CompletionList {
  const sentence = sentenceIn(text.slice(start, at));
  const verbs = verbsOf(sentence);
  if (verbs.length === 0)
    return { from: at - sentence.length, to: at, options: verbForms(sentence) };
  const units = unitOptions(sentence);
  if (units) return { from: at - units.typed.length, to: at, options: units.options };
  const found = verbs.map((begun) => {
    const { kinds, typed } = expected(begun);
    return { typed, options: kinds.flatMap((kind) => fillers(kind, typed, text)) };
  });
  const first = found.find(({ options }) => options.length > 0);
  if (!first) {
    const word = /\S*$/.exec(sentence)![0];
    return { from: at - word.length, to: at, options: distinct(clauseWords(verbs, word)) };
  }
  const alike = found.filter(({ typed }) => typed === first.typed);
  const options = distinct(alike.flatMap((each) => each.options));
  return { from: at - first.typed.length, to: at, options };
}

/** After a number comes a unit. */
function unitOptions(
  sentence: string,
): { typed: string; options: readonly CompletionOption[] } | undefined {
  const typed = /(?:^|\s)[\d.,–-]*\d\s*([^\s\d]{0,4})$/.exec(sentence)?.[1];
  if (typed === undefined) return undefined;
  const options = UNITS.filter((name) => begins(name, typed)).map((name): CompletionOption => ({
    text: name,
    label: name,
    kind: 'unit',
  }));
  return options.length > 0 ? { typed, options } : undefined;
}

function distinct(options: readonly CompletionOption[]): CompletionOption[] {
  const seen = new Set<string>();
  return options.filter(({ text }) => !seen.has(text) && seen.add(text)).slice(0, MOST);
}

/** Verbs whose words the sentence begins with, and goes beyond. */
function verbsOf(sentence: string): Begun[] {
  const lower = sentence.toLowerCase();
  return VERBS.flatMap((verb) => {
    const head = verb.heads
      .filter((words) => lower.startsWith(`${words} `))
      .sort((a, b) => b.length - a.length)[0];
    return head === undefined ? [] : [{ verb, rest: sentence.slice(head.length + 1) }];
  });
}

function verbForms(typed: string): CompletionOption[] {
  const options = VERBS.flatMap((verb) =>
    verb.forms
      .filter((form) => begins(form, typed))
      .map((form): CompletionOption => ({
        text: form.replace(/\s*\{.*$/, ' '),
        label: form,
        kind: 'verb',
      })),
  );
  const heads = VERBS.flatMap((verb) => verb.heads)
    .filter((head) => typed.trim() !== '' && begins(head, typed))
    .map((head): CompletionOption => {
      const text = `${head.charAt(0).toUpperCase()}${head.slice(1)} `;
      return { text, label: text.trim(), kind: 'verb' };
    });
  return distinct([...options, ...heads]);
}

/** What the last clause word, or the verb where there is none, asks for, and what is typed of it. */
function expected({ verb, rest }: Begun): Wanted {
  const lower = ` ${rest.toLowerCase()}`;
  let best: { end: number; length: number; kinds: ArgumentKind[] } | undefined;
  for (const { words: phrases, kind } of verb.clauses) {
    for (const phrase of phrases) {
      const at = phrase === '' ? -1 : lower.lastIndexOf(` ${phrase} `);
      if (at < 0) continue;
      const end = at + phrase.length + 1;
      if (!best || end > best.end || (end === best.end && phrase.length > best.length))
        best = { end, length: phrase.length, kinds: [kind] };
      else if (end === best.end && phrase.length === best.length) best.kinds.push(kind);
    }
  }
  if (best) return { kinds: best.kinds, typed: afterJoin(rest.slice(best.end)) };
  return { kinds: (verb.object ?? []).map(({ kind }) => kind), typed: afterJoin(rest) };
}

/** In a list only what follows the last "and" or comma is being typed. */
function afterJoin(typed: string): string {
  return typed.slice(/^(?:.*(?:,|\band)\s+)?/i.exec(typed)![0].length);
}

const TIMES = ['5 min', '10 min', '30 min', '1 h', 'overnight'];
const TEMPERATURES = ['0 °C', '5 °C', 'room temperature', '60 °C', '100 °C'];
const BATHS = ['an ice bath', 'a water bath', 'an oil bath', 'a steam bath'];

function words(list: readonly string[], typed: string): CompletionOption[] {
  return list
    .filter((text) => begins(text, typed))
    .map((text) => ({ text, label: text, kind: 'clause' }));
}

function vesselOptions(typed: string, text: string): CompletionOption[] {
  return vesselsOf(text)
    .filter(({ name }) => begins(name, typed) || begins(`the ${name}`, typed))
    .map(({ name }) => ({ text: `the ${name}`, label: name, kind: 'vessel' }));
}

function contentOptions(typed: string, text: string): CompletionOption[] {
  const contents = CONTENTS.filter((name) => begins(name, typed) || begins(name.slice(4), typed));
  return [
    ...vesselOptions(typed, text),
    ...contents.map((name): CompletionOption => ({ text: name, label: name, kind: 'vessel' })),
  ];
}

function materialOptions(typed: string, text: string): CompletionOption[] {
  // An amount or a strength may stand before the name
  const name = typed.replace(/^(?:[\d.,×\s]+(?:g|mg|mL|L|mmol|M|%)\s+(?:of\s+)?)+/, '');
  const lead = typed.slice(0, typed.length - name.length);
  return substancesBeginning(tableOf(text), name).map((option) => ({
    ...option,
    text: `${lead}${option.text}`,
  }));
}

function fillers(kind: ArgumentKind, typed: string, text: string): CompletionOption[] {
  const make: Partial<Record<ArgumentKind, () => CompletionOption[]>> = {
    vessel: () => vesselOptions(typed, text),
    ref: () => contentOptions(typed, text),
    refs: () => contentOptions(typed, text),
    materials: () => materialOptions(typed, text),
    time: () => words(TIMES, typed),
    temperature: () => words(TEMPERATURES, typed),
    bath: () => words(BATHS, typed),
    portions: () => words(['portions', 'three portions'], typed),
    endpoint: () => words(['pH 7', 'constant mass'], typed),
    stream: () => words(['the aqueous waste', 'the organic waste', 'the solid waste'], typed),
    keep: () =>
      words(
        ['the solid', 'the filtrate', 'the organic layer', 'the upper layer', 'the lower layer'],
        typed,
      ),
  };
  return make[kind]?.() ?? [];
}

/** Words that may open a clause of the verb, and manners. */
function clauseWords(verbs: readonly Begun[], typed: string): CompletionOption[] {
  const openers = verbs.flatMap(({ verb }) => verb.clauses.map((clause) => clause.words[0] ?? ''));
  const manners = typed === '' ? [] : Object.keys(MANNERS);
  return words([...openers.filter((word) => word !== ''), ...manners], typed);
}
