import { builtInSubstances } from '../../../../core/chemistry/substance.ts';
import type { NmrEntered, NmrStandard } from '../../../../core/evidence/nmr/schema.ts';
import type { Subjects } from '../../../../core/evidence/subject.ts';
import { useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { NumberField, TextField } from '../fields.tsx';
import { Line, Seldom } from '../layout.tsx';
import { needPositive, positive } from '../read.ts';
import { wholeNumber } from './owner.ts';

const MOST_mg = 1e9;

const FIELDS = [
  'sampleMass_mg',
  'standardName',
  'standardMass_mg',
  'standardHydrogens',
  'standardShift',
  'standardPurity_percent',
  'standardSmiles',
  'sampleMassU_mg',
  'standardMassU_mg',
  'standardPurityU_percent',
] as const;

/** The structure of a substance that the tables or the experiment know by this name. */
function structureOf(name: string, { product, others }: Subjects): string | undefined {
  const key = name.trim().toLowerCase();
  const own = [...(product === undefined ? [] : [product]), ...others];
  const all = [...own.map(({ substance }) => substance), ...builtInSubstances()];
  return all.find(
    (substance) =>
      substance.smiles !== undefined &&
      [substance.name, ...substance.synonyms].some((known) => known.toLowerCase() === key),
  )?.smiles;
}

/** A weighed substance in the same tube, against which the product is measured. */
export function StandardFields({ subjects }: { readonly subjects: Subjects }) {
  const { draft } = useForm();
  const name = typeof draft['standardName'] === 'string' ? draft['standardName'] : '';
  const isUnknown = name.trim() !== '' && structureOf(name, subjects) === undefined;
  return (
    <Seldom summary="Internal standard, weighed in" fields={FIELDS}>
      <Line>
        <NumberField name="sampleMass_mg" label="Sample weighed in" unit="mg" />
        <TextField name="standardName" label="Internal standard" />
        <NumberField name="standardMass_mg" label="Standard weighed in" unit="mg" />
      </Line>
      {isUnknown && (
        <TextField
          name="standardSmiles"
          label="Structure of the standard as SMILES"
          aid="The tables do not know it by this name; its molar mass comes from the structure."
        />
      )}
      <Line>
        <NumberField name="standardShift" label="Its signal at" unit="ppm" />
        <NumberField name="standardHydrogens" label="Hydrogens of that signal" />
        <NumberField
          name="standardPurity_percent"
          label="Purity of the standard"
          unit="%"
          aid="Empty: 100 %."
        />
      </Line>
      <Line>
        <NumberField
          name="sampleMassU_mg"
          label="Standard uncertainty of the sample's mass"
          unit="mg"
        />
        <NumberField
          name="standardMassU_mg"
          label="Standard uncertainty of the standard's mass"
          unit="mg"
        />
        <NumberField
          name="standardPurityU_percent"
          label="Standard uncertainty of its purity"
          unit="%"
        />
      </Line>
    </Seldom>
  );
}

function readWeighedStandard(reader: DraftReader, subjects: Subjects): Open<NmrStandard> {
  const substance = reader.text('standardName') ?? '';
  if (substance === '') reader.say('standardName', 'This is needed.');
  const smiles = structureOf(substance, subjects) ?? reader.text('standardSmiles', 2000);
  const hydrogens = wholeNumber(reader, 'standardHydrogens', 200);
  if (hydrogens === undefined) reader.say('standardHydrogens', 'This is needed.');
  return {
    substance,
    smiles,
    mass_mg: needPositive(reader, 'standardMass_mg', MOST_mg),
    massU_mg: reader.number('standardMassU_mg', 0, 1e6),
    purity_percent: positive(reader, 'standardPurity_percent', 100) ?? 100,
    purityU_percent: reader.number('standardPurityU_percent', 0, 100),
    hydrogens: hydrogens ?? 1,
    shift_ppm: reader.need('standardShift', -10, 30),
  };
}

export function readStandard(
  reader: DraftReader,
  subjects: Subjects,
): Open<Pick<NmrEntered, 'sampleMass_mg' | 'sampleMassU_mg' | 'standard'>> | undefined {
  if (FIELDS.every((field) => reader.text(field, Infinity) === undefined)) return undefined;
  return {
    sampleMass_mg: needPositive(reader, 'sampleMass_mg', MOST_mg),
    sampleMassU_mg: reader.number('sampleMassU_mg', 0, 1e6),
    standard: readWeighedStandard(reader, subjects),
  };
}
