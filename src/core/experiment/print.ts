import { tableWith } from '../chemistry/substance.ts';
import type { Substance } from '../chemistry/substance.ts';
import type { Experiment, Note, ReactionDeclaration, Step, VesselDeclaration } from './step.ts';
import { VERB_OF } from './verbs/index.ts';
import { wordingFor } from './wording.ts';

/**
 * A step in our standard wording, without a full stop. Every vessel is named, so that the sentence
 * means the same wherever it stands, provided that the vessels of the experiment are declared.
 */
export function printStep(step: Step): string {
  const verb = VERB_OF[step.verb];
  return verb.print(step.slots, wordingFor(verb)).replace(/\s+/g, ' ').trim();
}

/**
 * A whole document in standard wording: each step a sentence of its own, every vessel declared.
 * Read again it gives the same reactions, vessels and slots.
 */
export function printExperiment(experiment: Experiment): string {
  const header = Object.entries(experiment.header).map(([key, value]) => `${key}: ${value}`);
  const blocks = [
    `# ${experiment.title}`,
    header.join('\n'),
    section('Reaction', experiment.reactions.map(printReaction)),
    section('Substances', experiment.substances.map(printSubstance)),
    section('Vessels', experiment.vessels.map(printVessel)),
    section('Procedure', printProcedure(experiment)),
    section('Product', printProduct(experiment)),
    ...printProse(experiment),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function section(title: string, lines: readonly string[]): string {
  return lines.length === 0 ? '' : `## ${title}\n\n${lines.join('\n')}`;
}

function printReaction({ id, text }: ReactionDeclaration): string {
  return /^reaction \d+$/.test(id) ? text : `${id}: ${text}`;
}

function printVessel({ id, shape, capacity_mL, tared }: VesselDeclaration): string {
  const size = capacity_mL === undefined ? '' : `${capacity_mL} mL `;
  return `- ${id}: ${size}${shape === 'other' ? 'vessel' : shape}${tared ? ', tared' : ''}`;
}

/** What a document says of a substance beyond the table; what is drawn as the table draws it stays out. */
function printSubstance(substance: Substance): string {
  const known = tableWith([]).byName.get(substance.id);
  // A line that only adds to the table took everything else from there
  const drawn =
    known !== undefined &&
    known.smiles === substance.smiles &&
    known.formula === substance.formula &&
    known.synonyms.every((name) => substance.synonyms.includes(name));
  const { smiles, formula, cas, state, density_g_mL, meltingPoint_C, boilingPoint_C } = substance;
  const temperature = substance.densityT_C === undefined ? '' : ` at ${substance.densityT_C} °C`;
  const facts = [
    ...(smiles !== undefined && !drawn ? [`SMILES ${smiles}`] : []),
    ...(formula !== undefined && !drawn ? [`formula ${formula}`] : []),
    ...(cas === undefined || drawn ? [] : [`CAS ${cas}`]),
    ...(state === 'unknown' ? [] : [state]),
    ...(density_g_mL === undefined ? [] : [`density ${density_g_mL} g/mL${temperature}`]),
    ...(meltingPoint_C === undefined ? [] : [`mp ${meltingPoint_C} °C`]),
    ...(boilingPoint_C === undefined ? [] : [`bp ${boilingPoint_C} °C`]),
    ...(substance.synonyms.length === 0 || drawn
      ? []
      : [`also called ${substance.synonyms.join(', ')}`]),
  ];
  return `- ${substance.name}: ${facts.join('; ')}`;
}

/** Remarks stand as quotations between the steps that they stood between. */
function printProcedure({ steps, notes }: Experiment): string[] {
  const first = steps[0]?.span.start ?? 0;
  const last = steps.at(-1)?.span.end ?? 0;
  const remarks = notes.filter(
    (note) => note.span.start >= first && (note.after !== undefined || note.span.start <= last),
  );
  const lines: string[] = [];
  let part: string | undefined;
  let number = 0;
  const flush = (upTo: number) => {
    while (remarks[0] && remarks[0].span.start < upTo)
      lines.push('', remarkLine(remarks.shift()!), '');
  };
  for (const step of steps) {
    flush(step.span.start);
    if (step.part !== part && step.part !== undefined) lines.push('', `### ${step.part}`, '');
    part = step.part;
    lines.push(`${++number}. ${printStep(step)}.`);
  }
  flush(Infinity);
  return lines.filter((line, i) => line !== '' || (i > 0 && lines[i - 1] !== ''));
}

function remarkLine({ text }: Note): string {
  return text.startsWith('>') ? text : `> ${text}`;
}

function printProduct({ products, basis, expectations }: Experiment): string[] {
  return [
    ...products.map(({ name }) => name),
    ...(basis === undefined ? [] : [`Basis: ${basis}`]),
    ...Object.entries(expectations).map(([key, value]) => `${key}: ${value}`),
  ];
}

/** Sections of prose, in their order. Their lines are kept as they were written. */
function printProse({ notes, steps }: Experiment): string[] {
  const inside = new Set(notes.filter((note) => note.after !== undefined));
  const last = steps.at(-1)?.span.end ?? 0;
  const first = steps[0]?.span.start ?? 0;
  const sections = new Map<string, string[]>();
  for (const note of notes) {
    if (inside.has(note) || (note.span.start >= first && note.span.start <= last)) continue;
    const lines = sections.get(note.section) ?? [];
    sections.set(note.section, [...lines, note.text]);
  }
  return [...sections].map(([title, lines]) => section(title, lines));
}
