import type { SampleState } from '../src/core/evidence/spectrum/infrared.ts';
import { judgeInfrared } from '../src/core/evidence/spectrum/judge/judge.ts';
import { MOLECULES } from '../src/core/evidence/spectrum/judge/testing/molecules.ts';
import {
  simulated,
  usualDistortion,
} from '../src/core/evidence/spectrum/judge/testing/simulate.ts';
import { structureFacts } from '../src/structures/facts.ts';
import { loadStructureKit } from '../src/structures/rdkit.ts';
import type { Item } from './item.ts';
import { median, warmTimesOf } from './measure.ts';

/** A spectrum read and treated already, judged: half of the 25 ms that the design gives the whole. */
const BUDGET_MS = 10;
const POINTS = 4000;
const PRODUCT = 'O=C(OCC)c1ccccc1';
const STARTING_MATERIAL = 'O=C(O)c1ccccc1';

/** Judging a trace of 4,000 points against a product, a starting material and a solvent. */
export async function spectrumJudge(): Promise<readonly Item[]> {
  const kit = await loadStructureKit();
  const factsOf = (smiles: string) => {
    const found = structureFacts(kit, smiles);
    if (!found.ok) throw new Error(found.message);
    return { name: smiles, facts: found.facts };
  };
  const state: SampleState = 'film';
  const molecule = MOLECULES.find(({ name }) => name === 'ethyl benzoate')!;
  const step_percm = 3440 / (POINTS - 1);
  const spectrum = simulated(molecule, {
    ...usualDistortion(state, 3),
    grid: 'wavenumber',
    step_percm,
  });
  const question = {
    spectrum,
    product: factsOf(PRODUCT),
    startingMaterials: [factsOf(STARTING_MATERIAL)],
    reagents: [],
    solvents: [factsOf('CCO')],
  };
  const judged = judgeInfrared(question);
  const sorted = () => Float64Array.from(spectrum.absorbance).sort();
  return [
    {
      what: `infrared spectrum judged, ${spectrum.absorbance.length} points`,
      times_ms: warmTimesOf(200, () => judgeInfrared(question)),
      budget_ms: BUDGET_MS,
      baseline: { what: 'sorting its absorbances', times_ms: warmTimesOf(200, sorted) },
      remarks: [
        `${judged.bands.length} expected bands, ${judged.groups.length} groups, ${judged.statements.length} statements`,
      ],
    },
  ];
}

if (process.argv[1]?.endsWith('spectrum-judge.ts') === true) {
  for (const { what, times_ms, remarks } of await spectrumJudge())
    console.log(`${what}: ${median(times_ms).toFixed(2)} ms; ${remarks.join('; ')}`);
}
