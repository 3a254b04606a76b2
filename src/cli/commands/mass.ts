import { hillOrder, printHill } from '../../core/chemistry/hill.ts';
import { molarMass } from '../../core/chemistry/molar-mass.ts';
import type { MolarMass, MolarMassPart } from '../../core/chemistry/molar-mass.ts';
import { EXIT, optionText, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { READINGS, compositionOfText } from '../composition-of.ts';
import type { Identified, ReadAs } from '../composition-of.ts';
import type { Paper } from '../paint/ink.ts';
import { paintTable } from '../paint/table.ts';
import { harmless, paragraph } from '../paint/text.ts';

const SOURCE =
  'Standard atomic weights: CIAAW, abridged values of 2021; u is the standard uncertainty (k = 1).';

/** Decimals that the uncertainty leaves a meaning, two at least, as reagent labels have. */
const decimalsOf = ({ u_g_mol }: MolarMass) =>
  Math.min(6, Math.max(2, u_g_mol > 0 ? 1 - Math.floor(Math.log10(u_g_mol)) : 2));

function paintMass(title: string, found: Identified, mass: MolarMass, paper: Paper): string {
  const { ink } = paper;
  const decimals = decimalsOf(mass);
  const share = (part: MolarMassPart) => (100 * part.count * part.weight) / mass.value_g_mol;
  const { text } = paintTable(
    hillOrder(mass.parts.map((part) => part.symbol)).map((symbol) =>
      mass.parts.find((part) => part.symbol === symbol)!,
    ),
    [
      { head: 'element', cell: (part) => part.symbol },
      { head: 'atoms', cell: (part) => String(part.count), align: 'decimal' },
      { head: 'weight', cell: (part) => String(part.weight), align: 'decimal' },
      { head: 'g/mol', cell: (part) => (part.count * part.weight).toFixed(3), align: 'decimal' },
      { head: 'mass %', cell: (part) => share(part).toFixed(2), align: 'decimal' },
    ],
    paper,
  );
  const formula = printHill(found.composition);
  const named = title === formula ? title : `${title}, ${formula}`;
  const answer = `${named}: ${ink.bold(`${mass.value_g_mol.toFixed(2)} g/mol`)}`;
  const u = `(${mass.value_g_mol.toFixed(decimals)}, u = ${mass.u_g_mol.toFixed(decimals)})`;
  const remark = found.assumed === undefined ? [] : [paragraph(found.assumed, paper.width)];
  return [
    `${answer}  ${ink.faint(u)}`,
    ...remark,
    '',
    text,
    '',
    ink.faint(paragraph(SOURCE, paper.width)),
  ].join('\n');
}

function run(call: Call): Answer {
  const text = call.args.join(' ').trim();
  const as = optionText(call, 'as');
  if (as !== undefined && !READINGS.includes(as as ReadAs))
    return refusal(`--as takes ${READINGS.join(', ')}.`);
  if (text === '') return refusal('There is nothing to read.', 'As in: weighboat mass NaBH4');
  const reading = compositionOfText(harmless(text), as as ReadAs | undefined);
  if (!reading.ok) return refusal(reading.message, reading.hint);
  const { found } = reading;
  const mass = molarMass(found.composition);
  if (mass.problem !== undefined) return refusal(mass.problem);
  const title = found.substance?.name ?? text;
  return {
    kind: 'answer',
    exit: EXIT.fine,
    data: {
      text,
      readAs: found.readAs,
      ...(found.substance === undefined ? {} : { name: found.substance.name }),
      formula: printHill(found.composition),
      molarMass_g_mol: mass.value_g_mol,
      u_g_mol: mass.u_g_mol,
      parts: mass.parts,
      source: SOURCE,
    },
    paint: (paper) => paintMass(title, found, mass, paper),
  };
}

export const massCommand: Command = {
  name: 'mass',
  summary: 'molar mass of a name, a formula or SMILES, element by element',
  takes: 'NAME|FORMULA|SMILES',
  about:
    'Works out a molar mass with its uncertainty and the mass share of each element. A name that the ' +
    'table knows comes before a formula, a formula before SMILES; --as settles it.',
  options: { as: { type: 'string', value: 'KIND', about: 'Read it as name, formula or smiles.' } },
  examples: ['mass NaBH4', 'mass benzoic acid', 'mass "CC1CCC(=O)CC1"', 'mass CO --as smiles'],
  arity: [1, 12],
  run,
};
