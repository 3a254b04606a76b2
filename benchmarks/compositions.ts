import { sameComposition } from '../src/core/chemistry/composition.ts';
import { readSmiles } from '../src/core/chemistry/smiles.ts';
import { builtInSubstances } from '../src/core/chemistry/substance.ts';
import { loadStructureKit } from '../src/structures/rdkit.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { timesOf, warmTimesOf } from './measure.ts';

/** The composition of every structure in the table, by our own reader and by the structure toolkit. */
export async function compositions(): Promise<Item[]> {
  const all = builtInSubstances().flatMap(({ smiles }) => (smiles === undefined ? [] : [smiles]));
  const begun = performance.now();
  const kit = await loadStructureKit();
  const load_ms = performance.now() - begun;
  const agree = all.filter((smiles) => {
    const [own, theirs] = [readSmiles(smiles), kit.composition(smiles)];
    return own.ok && theirs.ok && sameComposition(own.composition, theirs.composition);
  });
  return [
    {
      what: `Composition of the ${all.length} structures of the table from SMILES`,
      times_ms: warmTimesOf(100, () => all.map(readSmiles)),
      baseline: {
        what: `${kit.name}, asked for the same`,
        times_ms: timesOf(
          9,
          () => all.map((smiles) => kit.composition(smiles).ok),
          () => undefined,
        ).slice(2),
      },
      remarks: [
        `${agree.length} of ${all.length} agree. Loading the toolkit first took ${timeText(load_ms)}.`,
      ],
    },
  ];
}
