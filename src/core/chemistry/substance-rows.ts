import sourceTable from '../facts/substance_sources.json' with { type: 'json' };
import substanceTable from '../facts/substances.json' with { type: 'json' };
import { numberIn, rowsOf } from '../facts/table.ts';
import { compositionIn } from './composition-text.ts';
import { fromStructure, given } from './substance-make.ts';
import type { PhaseHint, State, Substance, SubstanceFacts } from './substance-make.ts';

function listIn(cell: string | undefined): string[] {
  return (cell ?? '')
    .split(';')
    .map((item) => item.trim())
    .filter((item) => item !== '');
}

function textIn(cell: string | undefined): string | undefined {
  return cell === undefined || cell === '' ? undefined : cell;
}

type SpellOut = (source?: string) => string | undefined;

/** What a row of data/substances.csv says of its substance. */
export function factsIn(row: Record<string, string>, spellOut: SpellOut = textIn): SubstanceFacts {
  return {
    name: row['name']!,
    synonyms: listIn(row['synonyms']),
    state: row['state'] as State,
    phase: row['phase'] as PhaseHint,
    hazardCodes: listIn(row['hazard_codes']),
    origin: 'table',
    source: given({
      identity: spellOut(row['source']),
      density: spellOut(row['density_source']),
      meltingPoint: spellOut(row['mp_source']),
      boilingPoint: spellOut(row['bp_source']),
      hazards: spellOut(row['hazard_source']),
    }),
    ...given({
      smiles: textIn(row['smiles']),
      formula: textIn(row['formula']),
      cas: textIn(row['cas']),
      density_g_mL: numberIn(row['density_g_mL']),
      densityT_C: numberIn(row['density_T_C']),
      meltingPoint_C: numberIn(row['mp_C']),
      boilingPoint_C: numberIn(row['bp_C']),
    }),
  };
}

function fromRow(row: Record<string, string>, spellOut: SpellOut): Substance {
  const text = textIn(row['composition']);
  // `npm run facts` has made sure that structure, formula and registry number agree
  const made = fromStructure(factsIn(row, spellOut), {
    ...(text !== undefined && { composition: compositionIn(text) }),
    ionic: false,
  });
  if (!made.ok) throw new Error(`data/substances.csv, ${row['name']}: ${made.message}`);
  return made.substance;
}

let builtIn: readonly Substance[] | undefined;

/** The substances of data/substances.csv; read once, when first asked for. */
export function builtInSubstances(): readonly Substance[] {
  if (builtIn === undefined) {
    const texts = new Map(rowsOf(sourceTable).map((row) => [row['key']!, row['source']!]));
    const spellOut: SpellOut = (source) =>
      textIn(source) === undefined ? undefined : (texts.get(source!) ?? source);
    builtIn = rowsOf(substanceTable).map((row) => fromRow(row, spellOut));
  }
  return builtIn;
}
