import { findSubstance } from '../../core/chemistry/find.ts';
import { printHill } from '../../core/chemistry/hill.ts';
import { readMaterial } from '../../core/chemistry/material.ts';
import type { Material } from '../../core/chemistry/material.ts';
import { tableWith } from '../../core/chemistry/substance.ts';
import type { Substance } from '../../core/chemistry/substance.ts';
import { formatNumber } from '../../core/quantity/print.ts';
import { EXIT, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import type { Paper } from '../paint/ink.ts';
import { paintTable } from '../paint/table.ts';
import { harmless, paragraph } from '../paint/text.ts';

interface Fact {
  readonly what: string;
  readonly value: string;
  readonly source: string;
}

function factsOf(one: Substance): Fact[] {
  const { sources } = one;
  const fact = (what: string, value: string | undefined, source = ''): Fact[] =>
    value === undefined || value === '' ? [] : [{ what, value, source }];
  const with_ = (value: number | undefined, unit: string) =>
    value === undefined
      ? undefined
      : `${formatNumber(value, 6)
          .replace(/(\.\d*?)0+$/, '$1')
          .replace(/\.$/, '')} ${unit}`;
  const at = one.densityT_C === undefined ? '' : ` (${one.densityT_C} °C)`;
  return [
    ...fact(
      'formula',
      one.composition === undefined ? one.formula : printHill(one.composition),
      sources.identity,
    ),
    ...fact(
      'molar mass',
      one.molarMass_g_mol === undefined ? undefined : `${one.molarMass_g_mol.toFixed(2)} g/mol`,
      'CIAAW standard atomic weights',
    ),
    ...fact('SMILES', one.smiles),
    ...fact('CAS', one.cas, sources.identity),
    ...fact('at 20 °C', one.state === 'unknown' ? undefined : one.state),
    ...fact(
      'density',
      one.density_g_mL === undefined ? undefined : `${with_(one.density_g_mL, 'g/mL')}${at}`,
      sources.density,
    ),
    ...fact('melts', with_(one.meltingPoint_C, '°C'), sources.meltingPoint),
    ...fact('boils', with_(one.boilingPoint_C, '°C'), sources.boilingPoint),
    ...fact('goes with', one.phase),
    ...fact('GHS codes', one.hazardCodes.join(' ')),
  ];
}

const SDS = 'Hazards: the supplier’s safety data sheet decides, not this table.';

function paintSubstance(one: Substance, paper: Paper): string {
  const { text } = paintTable(
    factsOf(one),
    [
      { head: 'fact', cell: (fact) => fact.what },
      { head: 'value', cell: (fact) => fact.value, least: 20 },
      { head: 'source', cell: (fact) => fact.source, least: 20, set: () => paper.ink.faint },
    ],
    paper,
  );
  const also =
    one.synonyms.length === 0 ? [] : [paragraph(`Also: ${one.synonyms.join(', ')}`, paper.width)];
  const sds =
    one.hazardCodes.length === 0 ? [] : ['', paper.ink.faint(paragraph(SDS, paper.width))];
  return [paper.ink.bold(one.name), ...also, '', text, ...sds].join('\n');
}

function paintMaterial(material: Material, paper: Paper): string {
  const { text } = paintTable(
    material.composition,
    [
      { head: 'holds', cell: ({ substance }) => substance.name, least: 20 },
      {
        head: 'mass %',
        cell: ({ massFraction }) => (100 * massFraction).toFixed(2),
        align: 'decimal',
      },
    ],
    paper,
  );
  const density =
    material.density_g_mL === undefined
      ? 'density not known'
      : `density ${formatNumber(material.density_g_mL, 4)} g/mL${material.densitySource === undefined ? '' : ` (${material.densitySource})`}`;
  return [
    `${paper.ink.bold(material.name)}, ${density}`,
    '',
    text,
    '',
    paper.ink.faint(paragraph(material.compositionSource, paper.width)),
    ...material.assumed.map((one) => paper.ink.italic(paragraph(`Assumed: ${one}`, paper.width))),
  ].join('\n');
}

function run({ args }: Call): Answer {
  const name = harmless(args.join(' ')).trim();
  const table = tableWith([]);
  const match = findSubstance(table, name);
  if (match.kind === 'found') {
    const { substance } = match;
    return {
      kind: 'answer',
      exit: EXIT.fine,
      data: { kind: 'substance', ...substance, facts: factsOf(substance) },
      paint: (paper) => paintSubstance(substance, paper),
    };
  }
  if (match.kind === 'ambiguous') {
    const names = match.candidates.map((one) => one.name);
    return {
      kind: 'answer',
      exit: EXIT.findings,
      data: { kind: 'ambiguous', candidates: names },
      paint: (paper) =>
        paragraph(`${name} may mean: ${names.join(', ')}. Write which.`, paper.width),
    };
  }
  const reading = readMaterial(name, table);
  if (reading.ok)
    return {
      kind: 'answer',
      exit: EXIT.fine,
      data: { kind: 'material', ...reading.material },
      paint: (paper) => paintMaterial(reading.material, paper),
    };
  return unknown(name, match.near);
}

function unknown(name: string, near: readonly Substance[]): Answer {
  if (name === '') return refusal('There is nothing to look for.');
  const names = near.map((one) => one.name);
  const tail =
    names.length > 0
      ? `Near it: ${names.join(', ')}.`
      : 'A document can bring its own, under Substances: `- name: SMILES ...; liquid; density ... g/mL`.';
  return {
    kind: 'answer',
    exit: EXIT.findings,
    data: { kind: 'unknown', name, near: names },
    paint: (paper) => paragraph(`The table has no ${name}. ${tail}`, paper.width),
  };
}

export const findCommand: Command = {
  name: 'find',
  summary: 'what the table knows of a substance or a solution, with its sources',
  takes: 'NAME',
  about:
    'Looks a name, a synonym or a formula up, or reads what stands on a shelf (a strength, a solvent) ' +
    'and says what it holds.',
  options: {},
  examples: ['find cyclohexanol', 'find NaBH4', 'find 1 M hydrochloric acid', 'find brine'],
  arity: [1, 20],
  run,
};
