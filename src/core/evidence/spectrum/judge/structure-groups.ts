import { readSmiles } from '../../../chemistry/smiles.ts';
import type { StructureFacts } from '../../structure.ts';
import { timesIn } from '../../structure.ts';
import type { JudgedGroup } from './group-judgement.ts';

/** The patterns of data/structure_patterns.csv that make up each judged group. */
const PATTERNS: Readonly<Record<JudgedGroup, readonly string[]>> = {
  oh: [
    'alcohol',
    'phenol',
    'enol',
    'oxime-hydroxyl',
    'hydroxylamine-hydroxyl',
    'boron-hydroxyl',
    'silanol',
  ],
  acid: ['acid-hydroxyl'],
  nh: [
    'amine-primary',
    'aniline',
    'amine-secondary',
    'amine-secondary-aryl',
    'enamine-nh',
    'amide-nh2',
    'amide-nh',
    'imide-nh',
    'urea-nh',
    'carbamate-nh',
    'thioamide-nh',
    'sulfonamide-nh2',
    'sulfonamide-nh',
    'azole-nh',
    'lactam-nh',
    'pyridone-nh',
    'hydrazine-nh',
    'hydrazone-nh',
    'amidine-nh',
    'imine-nh',
    'ammonium',
    'amino-acid-amine',
  ],
  carbonyl: ['carbonyl'],
  nitrile: ['nitrile', 'cyanamide'],
  nitro: ['nitro'],
  'alkyne-h': ['alkyne-ch'],
  'aldehyde-ch': ['aldehyde-ch'],
  aryl: ['aryl-ch', 'benzene-ring'],
  alkene: ['alkene'],
  'c-o': [
    'alcohol',
    'phenol',
    'ether',
    'ester-oxygen',
    'lactone-oxygen',
    'acid-hydroxyl',
    'acetal',
  ],
  'c-cl': ['chloride-alkyl', 'chloride-aryl', 'chloride-vinyl'],
};

/** Does the structure hold the group? */
export function holds(facts: StructureFacts, group: JudgedGroup): boolean {
  return PATTERNS[group].some((pattern) => timesIn(facts, pattern) > 0);
}

const CHELATED = [
  'phenol-chelated-carbonyl',
  'phenol-chelated-nitro',
  'phenol-chelated-imine',
  'enol-chelated',
  'aniline-chelated',
  'enamine-nh-chelated',
];

/** Is an X–H bonded inside the molecule, so that its band may be too faint and wide to see? */
export function isChelated(facts: StructureFacts): boolean {
  return CHELATED.some((pattern) => timesIn(facts, pattern) > 0);
}

/** Symbols of the elements of some structures; undefined where one cannot be read. */
export function elementsOf(structures: readonly StructureFacts[]): readonly string[] | undefined {
  const symbols = new Set<string>();
  for (const { smiles } of structures) {
    const reading = readSmiles(smiles);
    if (!reading.ok) return undefined;
    for (const symbol of reading.composition.counts.keys()) symbols.add(symbol);
  }
  return symbols.size === 0 ? undefined : [...symbols];
}
