import materialTable from '../facts/materials.json' with { type: 'json' };
import { numberIn, rowsOf } from '../facts/table.ts';
import { keyOf } from './name-key.ts';

/** What `strength_kind` of data/materials.csv may say. */
export type ShelfStrength = 'massPercent' | 'volumePercent' | 'molarity' | 'saturated' | 'pure';

/** A form in which a substance is bought and stands on the shelf: concentrated acid, brine. */
export interface ShelfForm {
  readonly name: string;
  /** Table name of what it is named for. */
  readonly substance: string;
  readonly strengthKind: ShelfStrength;
  readonly strength?: number;
  readonly solvent?: string;
  readonly density_g_mL?: number;
  readonly density_T_C?: number;
  readonly source: string;
}

interface Shelf {
  readonly byName: ReadonlyMap<string, ShelfForm>;
  /** Names that mean this form when no strength is written beside them. */
  readonly byBareName: ReadonlyMap<string, ShelfForm>;
}

let shelf: Shelf | undefined;

function formIn(row: Record<string, string>): ShelfForm {
  const strength = numberIn(row['strength']);
  const density_g_mL = numberIn(row['density_g_mL']);
  const density_T_C = numberIn(row['density_T_C']);
  return {
    name: row['name']!,
    substance: row['substance']!,
    strengthKind: row['strength_kind'] as ShelfStrength,
    source: row['source']!,
    ...(strength !== undefined && { strength }),
    ...(row['solvent'] !== undefined && row['solvent'] !== '' && { solvent: row['solvent'] }),
    ...(density_g_mL !== undefined && { density_g_mL }),
    ...(density_T_C !== undefined && { density_T_C }),
  };
}

function readShelf(): Shelf {
  const byName = new Map<string, ShelfForm>();
  const byBareName = new Map<string, ShelfForm>();
  for (const row of rowsOf(materialTable)) {
    const form = formIn(row);
    const names = (cell: string | undefined): string[] =>
      (cell ?? '').split('; ').filter((name) => name !== '');
    for (const name of [form.name, ...names(row['synonyms'])]) byName.set(keyOf(name), form);
    for (const name of names(row['bare_names'])) byBareName.set(keyOf(name), form);
  }
  return { byName, byBareName };
}

export function shelfForm(name: string): ShelfForm | undefined {
  shelf ??= readShelf();
  return shelf.byName.get(keyOf(name));
}

export function bareShelfForm(name: string): ShelfForm | undefined {
  shelf ??= readShelf();
  return shelf.byBareName.get(keyOf(name));
}

/** Names of shelf forms, for completion. */
export function shelfNames(): string[] {
  shelf ??= readShelf();
  return [...new Set([...shelf.byName.values()].map((form) => form.name))];
}
