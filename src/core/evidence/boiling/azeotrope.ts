import azeotropeTable from '../../facts/azeotropes.json' with { type: 'json' };
import { numberIn, rowsOf } from '../../facts/table.ts';
import type { Subjects } from '../subject.ts';
import { subjectsIn } from '../melting/compare.ts';

/** Two liquids that boil together, at 101.325 kPa. */
export interface Azeotrope {
  readonly first: string;
  readonly second: string;
  readonly boiling_C: number;
  readonly massPercentFirst: number;
  readonly source: string;
}

let all: readonly Azeotrope[] | undefined;

export function azeotropes(): readonly Azeotrope[] {
  all ??= rowsOf(azeotropeTable).map((row) => ({
    first: row['first']!,
    second: row['second']!,
    boiling_C: numberIn(row['boiling_C'])!,
    massPercentFirst: numberIn(row['mass_percent_first'])!,
    source: row['source']!,
  }));
  return all;
}

/** Those that the substances of an experiment can form, water always among them. */
export function azeotropesOf(subjects: Subjects): readonly Azeotrope[] {
  const names = new Set(
    subjectsIn(subjects).flatMap(({ substance }) =>
      [substance.name, ...substance.synonyms].map((name) => name.toLowerCase()),
    ),
  );
  names.add('water');
  return azeotropes().filter(({ first, second }) => names.has(first) && names.has(second));
}
