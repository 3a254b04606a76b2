import { judgeBoiling } from '../../evidence/boiling/judge.ts';
import { judgeChemicalTest } from '../../evidence/chemical-test/judge.ts';
import { judgeChromatogram } from '../../evidence/chromatogram/judge.ts';
import { judgeDensity } from '../../evidence/density/judge.ts';
import { judgeMass } from '../../evidence/mass/judge.ts';
import { judgeMelting } from '../../evidence/melting/judge.ts';
import { judgeNmr } from '../../evidence/nmr/judge.ts';
import { judgeRefraction } from '../../evidence/refraction/judge.ts';
import { judgeRotation } from '../../evidence/rotation/judge.ts';
import type { EvidenceEntered } from '../../evidence/schema.ts';
import type { Judged } from '../../evidence/statement.ts';
import type { StructureFacts } from '../../evidence/structure.ts';
import type { Subjects } from '../../evidence/subject.ts';
import { judgeThinLayer } from '../../evidence/thin-layer/judge.ts';
import { judgeTitration } from '../../evidence/titration/judge.ts';

type Kind = EvidenceEntered['technique'];
type Entered<K extends Kind> = Extract<EvidenceEntered, { readonly technique: K }>;

interface World {
  readonly subjects: Subjects;
  readonly structures: ReadonlyMap<string, StructureFacts>;
}

const KEPT: Judged = {
  statements: [],
  diagnostics: [
    {
      code: 'file-not-worked-up',
      severity: 'note',
      message: 'The file is kept. It says nothing until it is worked up.',
      hint: 'Work it up: the figures are taken from it for you to check.',
    },
  ],
};

const NO_FILE: Judged = {
  statements: [],
  diagnostics: [
    {
      code: 'spectrum-without-file',
      severity: 'warning',
      message: 'This entry speaks of a spectrum and has no file.',
      hint: 'Add the file that the instrument wrote.',
    },
  ],
};

const JUDGES: { readonly [K in Kind]: (entered: Entered<K>, world: World) => Judged } = {
  infrared: () => NO_FILE,
  file: () => KEPT,
  meltingRange: (entered, { subjects }) => judgeMelting(entered, subjects),
  boilingRange: (entered, { subjects }) => judgeBoiling(entered, subjects),
  refractiveIndex: (entered, { subjects }) => judgeRefraction(entered, subjects),
  density: (entered, { subjects }) => judgeDensity(entered, subjects),
  rotation: (entered, { subjects }) => judgeRotation(entered, subjects),
  thinLayer: (entered, { subjects }) => judgeThinLayer(entered, subjects),
  chromatogram: (entered, { subjects }) => judgeChromatogram(entered, subjects),
  titration: (entered, { subjects }) => judgeTitration(entered, subjects),
  chemicalTest: (entered, world) => judgeChemicalTest(entered, world.subjects, structuresIn(world)),
  nmr: (entered, { subjects }) => judgeNmr(entered, subjects),
  mass: (entered, { subjects }) => judgeMass(entered, subjects),
};

/** A measurement that was typed, by its own judge. */
export function judgeEntered(
  entered: EvidenceEntered,
  subjects: Subjects,
  structures: ReadonlyMap<string, StructureFacts>,
): Judged {
  const judge = JUDGES[entered.technique] as (entered: EvidenceEntered, world: World) => Judged;
  return judge(entered, { subjects, structures });
}

/** The structures that a chemical test can tell apart. */
function structuresIn({ subjects: { product, others }, structures }: World) {
  const factsOf = (smiles: string | undefined) =>
    smiles === undefined ? undefined : structures.get(smiles);
  const ofProduct = factsOf(product?.substance.smiles);
  return {
    ...(ofProduct !== undefined && { product: ofProduct }),
    startingMaterials: others
      .filter(({ role }) => role === 'startingMaterial')
      // One for each starting material, in their order; of an unknown structure nothing matches
      .map(({ substance }) => factsOf(substance.smiles) ?? { smiles: '', matches: {} }),
  };
}
