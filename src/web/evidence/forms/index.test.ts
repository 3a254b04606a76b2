import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { evidenceEnteredSchema } from '../../../core/evidence/schema.ts';
import { boilingForm } from './boiling/form.tsx';
import { chemicalTestForm } from './chemical-test/form.tsx';
import { densityForm } from './density/form.tsx';
import { readDraft } from './draft.ts';
import type { Draft } from './draft.ts';
import type { EvidenceForm } from './form.ts';
import { FORMS } from './index.ts';
import { meltingForm } from './melting/form.tsx';
import { refractionForm } from './refraction/form.tsx';
import { rotationForm } from './rotation/form.tsx';
import { subjectsFor } from './testing.tsx';
import { titrationForm } from './titration/form.tsx';

const WORLD = { subjects: subjectsFor('benzoic acid', { benzaldehyde: 'startingMaterial' }) };

it('each technique has one form', () => {
  const techniques = FORMS.map(({ technique }) => technique);
  expect(new Set(techniques).size).toBe(techniques.length);
});

/** The names of the fields of each form, rows as a list of theirs. */
type Fields = Readonly<Record<string, readonly string[] | null>>;

const words = (names: string): Fields =>
  Object.fromEntries(names.split(' ').map((name) => [name, null]));

const THERMOMETER = {
  ...words('thermometerKind tolerance_C emergent_C stem_C'),
  calibration: ['standard', 'measured_C', 'true_C'],
};
const VOLUME = ['start_mL', 'end_mL', 'titre_mL'];

const FORM_FIELDS: readonly (readonly [EvidenceForm, Fields])[] = [
  [
    meltingForm,
    {
      ...words('sample known knownOther low_C high_C decomposes sublimes heatingRate_C_min'),
      ...words('aloneLow_C aloneHigh_C knownLow_C knownHigh_C'),
      ...THERMOMETER,
    },
  ],
  [
    boilingForm,
    {
      ...words('method point_C low_C high_C pressure pressureUnit hydrogenBonded'),
      ...THERMOMETER,
    },
  ],
  [refractionForm, words('index T_C compensated waterIndex waterT_C tolerance fall_perC')],
  [
    densityForm,
    words(
      'by empty_g withWater_g withSample_g T_C waterT_C readability_g withoutAir density_g_mL ' +
        'tolerance_g_mL fall_g_mL_perC',
    ),
  ],
  [
    rotationForm,
    words(
      'sample density_g_mL concentration unit solvent solventOther length_dm blank_deg ' +
        'observed_deg T_C wavelength_nm tolerance_deg literatureSolvent literatureSolventOther ' +
        'literatureConcentration literatureT_C',
    ),
  ],
  [
    titrationForm,
    {
      ...words('kind reading analyte analyteOther strength concentration_mol_L u_mol_L'),
      ...words('standard_acid standard_acidOther standardMolarMass_g_mol standardEquivalents'),
      ...words('titrant_acid titrant_acidOther equivalents_acid equivalents_iodometric purity'),
      ...words('purityU burette balance endPoint_mL indicator note'),
      standardRuns: ['standard_g', ...VOLUME],
      blanks: VOLUME,
      runs: ['sample_g', 'leftOut', ...VOLUME],
    },
  ],
  [
    chemicalTestForm,
    {
      note: null,
      tests: [
        ...['test', 'result', 'observed', 'blank', 'knownPositive', 'sample_structure'],
        ...['sample_structureOther', 'sample_workUp'],
      ],
    },
  ],
];

const CHOICES = [
  ...['mixed', 'authentic', 'microscale', 'shown', 'neat', 'g/mL', 'mmHg', 'digital', 'alcohol'],
  ...[
    'saponification',
    'iodometric',
    'titre',
    'standardised',
    '(other)',
    'yes',
    'no',
    'benzaldehyde',
  ],
  ...['positive', 'negative', 'unclear', 'dnp', 'peroxide', 'burette-25-A', 'product'],
];

/** What someone may have typed: mostly numbers that can be, some that cannot, some words. */
const typed = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.double({ min: 0.001, max: 0.3, noNaN: true }).map((x) => x.toFixed(3)),
  },
  { weight: 3, arbitrary: fc.integer({ min: -5, max: 60 }).map(String) },
  { weight: 3, arbitrary: fc.constantFrom(...CHOICES) },
  { weight: 1, arbitrary: fc.double().map(String) },
  { weight: 1, arbitrary: fc.string({ maxLength: 300 }) },
  { weight: 1, arbitrary: fc.boolean() },
);

function draftOf(fields: Fields): fc.Arbitrary<Draft> {
  const record = Object.fromEntries(
    Object.entries(fields).map(([name, row]) => [
      name,
      row === null
        ? typed
        : fc.array(fc.record(Object.fromEntries(row.map((one) => [one, typed]))), { maxLength: 3 }),
    ]),
  );
  return fc.record(record, { requiredKeys: [] });
}

it.each(FORM_FIELDS.map(([form, fields]) => [form.technique, form, fields] as const))(
  'whatever is typed, %s is an entry that the schema takes or says what is wrong with a field',
  (_, form, fields) => {
    fc.assert(
      fc.property(draftOf(fields), fc.constantFrom('.' as const, ',' as const), (draft, sign) => {
        const result = form.build(readDraft({ ...form.begin(WORLD), ...draft }, sign), WORLD);
        if (result.ok)
          expect(evidenceEnteredSchema.safeParse(result.entered).error).toBeUndefined();
        else expect(Object.keys(result.problems)).not.toEqual([]);
      }),
      { numRuns: 2000 },
    );
  },
);
