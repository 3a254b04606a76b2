import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { InfraredSpectrum, SampleState } from '../../src/core/evidence/spectrum/infrared.ts';
import type { JudgedGroup } from '../../src/core/evidence/spectrum/judge/group-judgement.ts';
import { groupsSeen } from '../../src/core/evidence/spectrum/judge/groups-seen.ts';
import { judgeInfrared } from '../../src/core/evidence/spectrum/judge/judge.ts';
import { judgeStructure } from '../../src/core/evidence/spectrum/judge/judge-structure.ts';
import { elementsOf, holds } from '../../src/core/evidence/spectrum/judge/structure-groups.ts';
import { CLEAN } from '../../src/core/evidence/spectrum/judge/testing/scenario.ts';
import { simulated } from '../../src/core/evidence/spectrum/judge/testing/simulate.ts';
import { readInstrumentFile } from '../../src/core/evidence/spectrum/read/read-file.ts';
import { infraredOf } from '../../src/core/evidence/spectrum/to-infrared.ts';
import { structureFacts } from '../../src/structures/facts.ts';
import { loadStructureKit } from '../../src/structures/rdkit.ts';
import published from './ir-judging.json' with { type: 'json' };

interface Measured {
  readonly file: string;
  readonly compound: string;
  readonly state: string;
  readonly smiles: string;
  readonly present?: readonly string[];
  readonly absent?: readonly string[];
  readonly never?: readonly string[];
  readonly source: string;
}

/** Measured spectra that lie beside the project where it is developed; they are not part of it. */
const FOLDER = new URL('../../../shared/spectra/', import.meta.url);
const isThere = existsSync(new URL('EXPECTED.csv', FOLDER));

function spectrumOf(file: string, state: SampleState): InfraredSpectrum {
  const reading = readInstrumentFile(readFileSync(new URL(file, FOLDER)), file);
  if (!reading.ok) throw new Error(reading.problem.message);
  for (const trace of reading.traces) {
    const made = infraredOf(trace, { state });
    if (made.ok) return made.spectrum;
  }
  throw new Error(`${file}: no infrared spectrum`);
}

const kit = await loadStructureKit();

function factsOf(smiles: string) {
  const found = structureFacts(kit, smiles);
  if (!found.ok) throw new Error(found.message);
  return found.facts;
}

/** Without the folder these are skipped: the spectra are not part of the project. */
describe.skipIf(!isThere)('measured spectra, the conclusions that they should lead to', () => {
  it.each(published.measured as readonly Measured[])('$compound: $file', (row) => {
    const spectrum = spectrumOf(row.file, row.state as SampleState);
    const facts = factsOf(row.smiles);
    const elements = [...(elementsOf([facts]) ?? []), 'O'];
    for (const known of [{}, { elements }]) {
      const verdicts = new Map(groupsSeen(spectrum, known).map((one) => [one.group, one.verdict]));
      const verdict = (group: string) => verdicts.get(group as JudgedGroup);
      for (const group of row.never ?? [])
        expect([group, verdict(group)]).not.toEqual([group, 'present']);
      // Blind, a verdict may be withheld, and never turned over.
      for (const group of row.present ?? [])
        expect([group, verdict(group)]).not.toEqual([group, 'absent']);
      for (const group of row.absent ?? [])
        expect([group, verdict(group)]).not.toEqual([group, 'present']);
      if (!('elements' in known)) continue;
      for (const group of row.present ?? [])
        expect([group, verdict(group)]).toEqual([group, 'present']);
      for (const group of row.absent ?? [])
        expect([group, verdict(group)]).toEqual([group, 'absent']);
    }
  });

  it.each(
    (published.measured as readonly Measured[]).filter(({ file }) => !file.includes('water')),
  )('the structure of $compound itself is not contradicted: $file', (row) => {
    const spectrum = spectrumOf(row.file, row.state as SampleState);
    const judged = judgeInfrared({
      spectrum,
      product: { name: row.compound, facts: factsOf(row.smiles) },
      startingMaterials: [],
      reagents: [],
      solvents: [],
    });
    const identity = judged.statements.find(({ id }) => id === 'infrared-groups');
    expect(identity?.agreement, identity?.says).not.toBe('disagrees');
  });

  it('an unknown sample is judged without a claim of identity', () => {
    const spectrum = spectrumOf('open/atr-measured/unilausanne_01_3_absorbance.jdx', 'atr');
    const judged = judgeInfrared({ spectrum, startingMaterials: [], reagents: [], solvents: [] });
    expect(judged.statements.some(({ about }) => about === 'identity')).toBe(false);
    expect(judged.groups.find(({ group }) => group === 'carbonyl')?.verdict).toBe('present');
  });

  it('silicone in a sample is named, and a plasticiser', () => {
    const asked = (file: string, state: SampleState, smiles: string) =>
      judgeInfrared({
        spectrum: spectrumOf(file, state),
        product: { name: 'the product', facts: factsOf(smiles) },
        startingMaterials: [],
        reagents: [],
        solvents: [],
      }).contaminants.filter(({ verdict }) => verdict === 'present');
    const silicone = asked('open/atr-measured/PDMS_diamond-atr_optichem.txt', 'atr', 'CCCCCCCC');
    expect(silicone.map(({ id }) => id)).toContain('silicone-grease');
    const plasticiser = asked(
      'open/liquid-nk-cc0/diethyl-phthalate_transmission.csv',
      'film',
      'CCCCCCCC',
    );
    expect(plasticiser.map(({ id }) => id)).toContain('phthalate-plasticiser');
  });

  it('residual dichloromethane is named when it was used', () => {
    const judged = judgeInfrared({
      spectrum: spectrumOf('open/liquid-nk-cc0/dichloromethane_atr-diamond.csv', 'atr'),
      product: { name: 'octane', facts: factsOf('CCCCCCCC') },
      startingMaterials: [],
      reagents: [],
      solvents: [{ name: 'dichloromethane', facts: factsOf('ClCCl') }],
    });
    const solvent = judged.contaminants.find(({ id }) => id === 'dichloromethane');
    expect(solvent?.verdict).not.toBe('absent');
  });
});

/** Of what a structure drawn on paper may show as something else: bonded inside, or by impurity. */
const HARD = new Set(["2'-hydroxyacetophenone"]);

describe('condensed-phase positions: no verdict against the structure', () => {
  it.each(published.condensed)('$compound', ({ compound, smiles, state, bands }) => {
    const facts = factsOf(smiles);
    const spectrum = simulated(
      { name: compound, form: 'liquid', elements: '', groups: '', bands: `${bands} 2930/.3/40` },
      { ...CLEAN, state: state as SampleState },
    );
    for (const { group, verdict } of judgeStructure(spectrum, facts)) {
      if (!['oh', 'carbonyl', 'nitro', 'acid', 'nitrile'].includes(group)) continue;
      const wrong = holds(facts, group) ? 'absent' : 'present';
      expect([group, verdict]).not.toEqual([group, wrong]);
      if (group !== 'acid' && holds(facts, group) && !HARD.has(compound))
        expect([group, verdict]).toEqual([group, 'present']);
    }
  });
});

interface Hard {
  readonly compound: string;
  readonly smiles: string;
  readonly states: readonly string[];
  readonly bands: string;
  /** Groups that are known to be taken wrongly, in one state or without the elements at least. */
  readonly misread?: readonly string[];
  readonly why?: string;
  readonly source: string;
}

/** Chelates, zwitterions, salts, hindered phenols, vapours: simulated from bands from memory. */
describe('hard cases: no verdict against the structure', () => {
  const ASKED: readonly JudgedGroup[] = ['oh', 'acid', 'carbonyl', 'nitro', 'nitrile'];
  const rows: readonly Hard[] = [...(published.hard as Hard[]), ...(published.after as Hard[])];

  /** Group, verdict and truth in every state, with the elements known and without. */
  function verdictsOf({ compound, smiles, states, bands }: Hard) {
    const facts = factsOf(smiles);
    const elements = elementsOf([facts]) ?? [];
    return states.flatMap((state) =>
      [{ elements }, {}].flatMap((known) => {
        const spectrum = simulated(
          { name: compound, form: 'liquid', elements: '', groups: '', bands },
          { ...CLEAN, state: state as SampleState },
        );
        return groupsSeen(spectrum, known)
          .filter(({ group }) => ASKED.includes(group))
          .map(({ group, verdict }) => {
            const wrong = holds(facts, group) ? 'absent' : 'present';
            return { group, verdict, state, isBlind: !('elements' in known), wrong };
          });
      }),
    );
  }

  it.each(rows)('$compound', (row) => {
    const judged = verdictsOf(row);
    const wrong = judged.filter(({ verdict, wrong: other }) => verdict === other);
    const groups = [...new Set(wrong.map(({ group }) => group))].sort();
    expect(groups).toEqual([...(row.misread ?? [])].sort());
  });

  it('no more than one verdict in six is withheld', () => {
    const all = rows.flatMap(verdictsOf);
    for (const blind of [false, true]) {
      const some = all.filter(({ isBlind }) => isBlind === blind);
      const untold = some.filter(({ verdict }) => verdict === 'cannotTell');
      expect(untold.length / some.length).toBeLessThan(1 / 6);
    }
  });
});

describe('gas-phase positions', () => {
  const compounds = [...new Set(published.gas.map(({ compound }) => compound))];

  /** A vapour with only the published bands: C=O at full height, O–H at a tenth. */
  function vapourOf(compound: string): InfraredSpectrum {
    const rows = published.gas.filter((row) => row.compound === compound);
    const bands = rows.map(({ band_percm, assignment }) => {
      const height = assignment === 'C=O stretch' ? 1 : assignment === 'O–H stretch' ? 0.12 : 0.4;
      return `${band_percm}/${height}/26`;
    });
    return simulated(
      {
        name: compound,
        form: 'gas',
        elements: 'CHO',
        groups: '',
        bands: [...bands, '2950/.7/40', '1180/.8/26'].join(' '),
      },
      { ...CLEAN, state: 'gas', strength: 0.5, step_percm: 4 },
    );
  }

  it.each(compounds)('%s', (compound) => {
    const rows = published.gas.filter((row) => row.compound === compound);
    const facts = factsOf(rows[0]!.smiles);
    const groups = new Map(
      judgeStructure(vapourOf(compound), facts).map((one) => [one.group, one.verdict]),
    );
    const has = (assignment: string) => rows.some((row) => row.assignment === assignment);
    expect(groups.get('carbonyl')).toBe(has('C=O stretch') ? 'present' : 'absent');
    // In an acid the published O–H is that of the single molecule, and no alcohol.
    const isAcid = 'acid' in facts.matches;
    expect(groups.get('acid')).toBe(isAcid && has('O–H stretch') ? 'present' : 'absent');
    if (!isAcid) expect(groups.get('oh')).toBe(has('O–H stretch') ? 'present' : 'absent');
  });
});
