import { formatNumber } from '../../quantity/print.ts';
import { kindOf } from '../outline.ts';
import type { SectionKind } from '../outline.ts';
import { readExperiment } from '../read.ts';
import { refuse, replace } from './change.ts';
import type { Edit } from './change.ts';

/** What a line of the Substances section can say. */
export interface NewSubstance {
  readonly name: string;
  readonly smiles?: string;
  readonly formula?: string;
  readonly cas?: string;
  readonly state?: 'solid' | 'liquid' | 'gas';
  readonly density_g_mL?: number;
  readonly meltingPoint_C?: number;
  readonly boilingPoint_C?: number;
  readonly assay_percent?: number;
  readonly alsoCalled?: readonly string[];
}

/**
 * Adds a line to the Substances section, which is made before Vessels or Procedure where there is
 * none yet. Refused where the name is declared already, or where the line would not be read.
 */
export function addSubstance(text: string, substance: NewSubstance): Edit {
  const name = substance.name.trim().replace(/\s+/g, ' ');
  if (name === '') return refuse('The substance has no name yet.');
  if (/:\s|[;`*]/.test(`${name} `))
    return refuse('A name may hold no semicolon, and no colon before a blank.');
  const before = readExperiment(text);
  if (before.substances.some((each) => each.name.toLowerCase() === name.toLowerCase()))
    return refuse(`${name} is declared under Substances already.`, 'Change its line there.');
  const edit = placed(text, lineOf({ ...substance, name }));
  if (!edit.ok) return edit;
  const after = readExperiment(edit.text);
  const known = new Set(before.diagnostics.map((each) => each.message));
  const trouble = after.diagnostics.find(
    ({ code, message }) => code.startsWith('substance-') && !known.has(message),
  );
  if (trouble !== undefined) return refuse(trouble.message, trouble.hint);
  const there = after.substances.some((each) => each.name.toLowerCase() === name.toLowerCase());
  return there ? edit : refuse(`The line of ${name} would not be read.`, 'Write it by hand.');
}

/** "- name: SMILES CCO; liquid; density 0.79 g/mL; bp 78 °C" */
function lineOf(substance: NewSubstance): string {
  const { name, smiles, formula, cas, state, alsoCalled = [] } = substance;
  const { density_g_mL, meltingPoint_C, boilingPoint_C, assay_percent } = substance;
  const number = (value: number) => formatNumber(value, undefined).replace('−', '-');
  const facts = [
    ...(smiles === undefined ? [] : [`SMILES ${smiles.trim()}`]),
    ...(formula === undefined ? [] : [`formula ${formula.trim()}`]),
    ...(cas === undefined ? [] : [`CAS ${cas.trim()}`]),
    ...(state === undefined ? [] : [state]),
    ...(density_g_mL === undefined ? [] : [`density ${number(density_g_mL)} g/mL`]),
    ...(meltingPoint_C === undefined ? [] : [`mp ${number(meltingPoint_C)} °C`]),
    ...(boilingPoint_C === undefined ? [] : [`bp ${number(boilingPoint_C)} °C`]),
    ...(assay_percent === undefined ? [] : [`assay ${number(assay_percent)} %`]),
    ...(alsoCalled.length === 0 ? [] : [`also called ${alsoCalled.join(', ')}`]),
  ];
  return `- ${name}: ${facts.join('; ')}`;
}

interface Heading {
  readonly kind: SectionKind;
  readonly start: number;
  readonly end: number;
}

const HEADING = /^(#{1,2})[ \t]+(.*?)[ \t]*#*[ \t]*$/gm;

function headingsOf(text: string): Heading[] {
  return [...text.matchAll(HEADING)].map((match, i) => ({
    // The first is the title, whatever it says
    kind: match[1] === '#' && i === 0 ? 'prose' : kindOf(match[2]!),
    start: match.index,
    end: match.index + match[0].length,
  }));
}

function placed(text: string, line: string): Edit {
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const headings = headingsOf(text.replace(/\r(?=\n)/g, ' '));
  const own = headings.findIndex((heading) => heading.kind === 'substances');
  if (own >= 0) {
    const section = headings[own]!;
    const stop = headings[own + 1]?.start ?? text.length;
    const body = text.slice(section.end, stop);
    const written = body.trimEnd();
    const at = section.end + written.length;
    const lead = written.trim() === '' ? newline + newline : newline;
    return replace(text, at, at, `${lead}${line}`);
  }
  const next = headings.find(({ kind }) => kind === 'vessels' || kind === 'procedure');
  const section = `## Substances${newline}${newline}${line}${newline}`;
  if (next !== undefined) return replace(text, next.start, next.start, `${section}${newline}`);
  const gap = text === '' ? '' : text.endsWith('\n') ? newline : newline + newline;
  return replace(text, text.length, text.length, gap + section);
}
