import testTable from '../../facts/chemical_tests.json' with { type: 'json' };
import { rowsOf } from '../../facts/table.ts';
import type { Weight } from '../statement.ts';

/** A row of data/chemical_tests.csv. */
export interface ChemicalTest {
  readonly id: string;
  readonly name: string;
  /** `workUp`: it looks at washings, solvents or leftovers, not at the product's structure. */
  readonly use: 'structure' | 'workUp';
  /** Groups that answer. */
  readonly detects: readonly string[];
  /** Groups that sometimes answer though the test is not for them. */
  readonly may: readonly string[];
  /** Groups that often fail to answer, or keep another from answering. */
  readonly misses: readonly string[];
  readonly positive: string;
  readonly negative: string;
  readonly falsePositives: string;
  readonly falseNegatives: string;
  readonly cautions: string;
  readonly weight: Weight;
  readonly source: string;
}

const listIn = (cell: string | undefined): string[] =>
  (cell ?? '').split(';').filter((word) => word !== '');

const TESTS: readonly ChemicalTest[] = rowsOf(testTable).map((row) => ({
  id: row['id'] ?? '',
  name: row['name'] ?? '',
  use: row['use'] === 'workUp' ? 'workUp' : 'structure',
  detects: listIn(row['detects']),
  may: listIn(row['may']),
  misses: listIn(row['misses']),
  positive: row['positive'] ?? '',
  negative: row['negative'] ?? '',
  falsePositives: row['false_positives'] ?? '',
  falseNegatives: row['false_negatives'] ?? '',
  cautions: row['cautions'] ?? '',
  weight: row['weight'] === 'moderate' ? 'moderate' : 'weak',
  source: row['source'] ?? '',
}));

/** Every test of the table, in its order. */
export function allChemicalTests(): readonly ChemicalTest[] {
  return TESTS;
}

/** By id or by name, in any case. */
export function findChemicalTest(idOrName: string): ChemicalTest | undefined {
  const key = idOrName.trim().toLowerCase();
  return TESTS.find(({ id, name }) => id === key || name.toLowerCase() === key);
}
