import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { readCsv } from '../../scripts/csv.ts';
import { bandsFor, irBands } from '../../src/core/evidence/spectrum/judge/bands.ts';
import { SAMPLE_STATES } from '../../src/core/evidence/spectrum/infrared.ts';
import type { SampleState } from '../../src/core/evidence/spectrum/infrared.ts';
import { structureFacts } from '../../src/structures/facts.ts';
import type { StructureKit } from '../../src/structures/port.ts';
import { loadStructureKit } from '../../src/structures/rdkit.ts';
import published from './ir-tables.json' with { type: 'json' };

interface Printed {
  readonly printed: string;
  readonly low_percm: number;
  readonly high_percm: number;
  readonly bands: readonly string[];
  /** Why our window is not the printed one. */
  readonly deviation?: string;
}

interface Measured {
  readonly compound: string;
  readonly smiles: string;
  readonly state: string;
  readonly position_percm: number;
  /** Which vibrations of our table may be meant by the assignment: how their names begin. */
  readonly vibration: readonly string[];
  readonly source: string;
  readonly deviation?: string;
}

const tables: readonly { readonly source: string; readonly rows: readonly Printed[] }[] =
  published.tables;
const measured: readonly Measured[] = published.measured;
const byId = new Map(irBands().map((band) => [band.id, band]));

let kit: StructureKit;
beforeAll(async () => {
  kit = await loadStructureKit();
});

/** Half of the narrower of the two lies in the other; a printed single value lies in our window. */
function agrees(row: Printed): boolean {
  return row.bands.some((id) => {
    const band = byId.get(id)!;
    const common =
      Math.min(band.high_percm, row.high_percm) - Math.max(band.low_percm, row.low_percm);
    const narrower = Math.min(band.high_percm - band.low_percm, row.high_percm - row.low_percm);
    return common >= 0 && (narrower === 0 || common / narrower >= 0.5);
  });
}

describe.each(tables)('$source', ({ rows }) => {
  test.each(rows)('$printed: $low_percm–$high_percm', (row) => {
    for (const id of row.bands) expect(byId.has(id), id).toBe(true);
    expect(agrees(row)).toBe(row.deviation === undefined);
  });
});

function windowsFor(row: Measured): string[] {
  const reading = structureFacts(kit, row.smiles);
  if (!reading.ok) throw new Error(`${row.compound}: ${reading.message}`);
  return bandsFor(reading.facts, row.state as SampleState)
    .filter(({ band }) => row.vibration.some((name) => band.vibration.startsWith(name)))
    .filter(({ band }) => row.position_percm >= band.low_percm)
    .filter(({ band }) => row.position_percm <= band.high_percm)
    .map(({ band }) => band.id);
}

describe('measured positions lie in the windows of their structure', () => {
  test.each(measured)('$compound, $state, $position_percm: $vibration', (row) => {
    expect(windowsFor(row).length > 0).toBe(row.deviation === undefined);
  });

  test('at least 97 in 100', () => {
    const explained = measured.filter((row) => row.deviation !== undefined).length;
    expect(measured.length).toBeGreaterThan(250);
    expect(explained / measured.length).toBeLessThan(0.03);
  });

  test.each(published.recalled as readonly Measured[])(
    '$compound, $state, $position_percm: $vibration, from memory',
    (row) => {
      expect(windowsFor(row)).not.toEqual([]);
    },
  );

  // Ketone windows that took in esters, or the reverse, would pass all of the above
  test.each([
    ['acetone', 'CC(C)=O', 'film', 1741],
    ['ethyl acetate', 'CCOC(C)=O', 'film', 1715],
    ['cyclopentanone', 'O=C1CCCC1', 'film', 1715],
    ['acetone, as if it were no gas', 'CC(C)=O', 'film', 1738],
    ['benzoic acid', 'OC(=O)c1ccccc1', 'disc', 1725],
    ['methyl benzoate', 'COC(=O)c1ccccc1', 'film', 1748],
  ])('%s: no C=O at the place of another class', (compound, smiles, state, position_percm) => {
    const row = { compound, smiles, state, position_percm, vibration: ['C=O stretch'], source: '' };
    expect(windowsFor(row)).toEqual([]);
  });
});

describe('one group, one row', () => {
  const table = new URL('structure-patterns.csv', import.meta.url);
  const structures = new Set(
    readCsv(readFileSync(table, 'utf8'))
      .slice(1)
      .flatMap((row) => `${row[1]} ${row[2]}`.split(' ')),
  );

  test.each(SAMPLE_STATES)('%s: no group has two rows that must show one vibration', (state) => {
    const doubled: string[] = [];
    for (const smiles of structures) {
      const reading = structureFacts(kit, smiles);
      if (!reading.ok) throw new Error(`${smiles}: ${reading.message}`);
      const first = new Map<string, string>();
      for (const { band, atoms } of bandsFor(reading.facts, state)) {
        if (band.duty === 'may') continue;
        for (const [anchor] of atoms) {
          const place = `${band.vibration} at ${anchor}`;
          const other = first.get(place);
          if (other !== undefined) doubled.push(`${smiles}: ${place}, ${other} and ${band.id}`);
          first.set(place, band.id);
        }
      }
    }
    expect(doubled).toEqual([]);
  });
});

describe('ATR reads lower by no more than is allowed for', () => {
  test.each(published.atr)('$compound: $film_percm → $atr_percm', (pair) => {
    const shift_percm = pair.film_percm - pair.atr_percm;
    const allowed_percm = pair.width_percm < 30 ? 10 : pair.width_percm < 100 ? 12 : 30;
    expect(shift_percm).toBeGreaterThanOrEqual(0);
    expect(shift_percm).toBeLessThanOrEqual(allowed_percm);
  });
});
