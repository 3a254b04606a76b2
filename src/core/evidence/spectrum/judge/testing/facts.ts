import type { StructureFacts } from '../../../structure.ts';

/**
 * Facts of a few structures, written by hand: the structure toolkit lies above the core. One atom
 * list a match is enough here.
 */
const facts = (smiles: string, ...patterns: readonly string[]): StructureFacts => ({
  smiles,
  matches: Object.fromEntries(patterns.map((pattern) => [pattern, [[0, 1]]])),
});

export const CYCLOHEXANONE = facts(
  'O=C1CCCCC1',
  'carbonyl',
  'ketone',
  'ketone-alkyl',
  'ketone-6-ring',
  'alkyl-ch',
  'methylene',
);
export const CYCLOHEXANOL = facts(
  'OC1CCCCC1',
  'hydroxyl',
  'alcohol',
  'alcohol-secondary',
  'alkyl-ch',
  'methylene',
);
export const ETHYL_BENZOATE = facts(
  'CCOC(=O)c1ccccc1',
  'carbonyl',
  'ester',
  'ester-aryl',
  'ester-oxygen',
  'ester-oxygen-aryl',
  'alkyl-ch',
  'methyl',
  'methyl-on-carbon',
  'aryl-ch',
  'benzene-ring',
  'benzene-mono',
);
export const BENZOIC_ACID = facts(
  'OC(=O)c1ccccc1',
  'carbonyl',
  'hydroxyl',
  'acid-hydroxyl',
  'acid',
  'acid-aryl',
  'aryl-ch',
  'benzene-ring',
  'benzene-mono',
);
export const ETHANOL = facts(
  'CCO',
  'hydroxyl',
  'alcohol',
  'alcohol-primary',
  'alkyl-ch',
  'methyl',
  'methylene',
  'methyl-on-carbon',
);
export const UNDECANE = facts(
  'CCCCCCCCCCC',
  'alkyl-ch',
  'methyl',
  'methylene',
  'methyl-on-carbon',
  'long-chain',
);

export const NITROBENZENE = facts(
  'O=[N+]([O-])c1ccccc1',
  'nitro',
  'nitro-aryl',
  'aryl-ch',
  'benzene-ring',
  'benzene-mono',
);
export const ANILINE = facts('Nc1ccccc1', 'aniline', 'aryl-ch', 'benzene-ring', 'benzene-mono');
