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

const TEST_FIELDS =
  'test result observed blank knownPositive sample_structure sample_structureOther sample_workUp'.split(
    ' ',
  );
const BURETTE = { start_mL: '0', end_mL: '20', titre_mL: '20' };

const FORM_FIELDS: readonly (readonly [EvidenceForm, good: Draft, Fields])[] = [
  [
    meltingForm,
    { low_C: '118', high_C: '121' },
    {
      ...words('sample known knownOther low_C high_C decomposes sublimes heatingRate_C_min'),
      ...words('aloneLow_C aloneHigh_C knownLow_C knownHigh_C'),
      ...THERMOMETER,
    },
  ],
  [
    boilingForm,
    { low_C: '96', high_C: '98', point_C: '97', pressure: '742' },
    {
      ...words('method point_C low_C high_C pressure pressureUnit hydrogenBonded'),
      ...THERMOMETER,
    },
  ],
  [
    refractionForm,
    { index: '1.46', T_C: '20' },
    words('index T_C compensated waterIndex waterT_C tolerance fall_perC'),
  ],
  [
    densityForm,
    { empty_g: '20', withWater_g: '30', withSample_g: '28', T_C: '20', density_g_mL: '0.8' },
    words(
      'by empty_g withWater_g withSample_g T_C waterT_C readability_g withoutAir density_g_mL ' +
        'tolerance_g_mL fall_g_mL_perC',
    ),
  ],
  [
    rotationForm,
    { concentration: '26', density_g_mL: '0.84', length_dm: '1', observed_deg: '17.3', T_C: '20' },
    words(
      'sample density_g_mL concentration unit solvent solventOther length_dm blank_deg ' +
        'observed_deg T_C wavelength_nm tolerance_deg literatureSolvent literatureSolventOther ' +
        'literatureConcentration literatureT_C',
    ),
  ],
  [
    titrationForm,
    {
      concentration_mol_L: '0.1',
      equivalents_iodometric: '2',
      standardEquivalents: '1',
      blanks: [BURETTE],
      runs: [{ ...BURETTE, sample_g: '0.25' }],
      standardRuns: [{ ...BURETTE, standard_g: '0.5' }],
    },
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
    { tests: [{ test: 'dnp', result: 'positive' }] },
    {
      note: null,
      tests: TEST_FIELDS,
    },
  ],
];

const CHOICES = (
  'mixed authentic microscale shown neat g/mL mmHg digital alcohol saponification iodometric ' +
  'titre standardised (other) yes no benzaldehyde positive negative unclear dnp peroxide ' +
  'burette-25-A product'
).split(' ');

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

/** A good draft with a few of its fields typed over; rows are typed over line by line. */
function draftOf(good: Draft, fields: Fields): fc.Arbitrary<Draft> {
  const lineOf = (row: readonly string[], line: Draft) =>
    fc
      .record(Object.fromEntries(row.map((one) => [one, fewOf])))
      .map((over): Draft => ({ ...line, ...defined(over) }));
  const record = Object.fromEntries(
    Object.entries(fields).map(([name, row]) => {
      if (row === null) return [name, fewOf];
      const rows = good[name];
      const line = Array.isArray(rows) ? (rows[0] as Draft) : {};
      return [name, fc.option(fc.array(lineOf(row, line), { maxLength: 3 }), { nil: undefined })];
    }),
  );
  return fc.record(record).map((over): Draft => ({ ...good, ...defined(over) }));
}

/** Most of a good draft stays as it is. */
const fewOf = fc.oneof(
  { weight: 7, arbitrary: fc.constant(undefined) },
  { weight: 1, arbitrary: typed },
);

const defined = (over: Draft): Draft =>
  Object.fromEntries(Object.entries(over).filter(([, value]) => value !== undefined));

it.each(FORM_FIELDS.map(([form, good, fields]) => [form.technique, form, good, fields] as const))(
  'whatever is typed, %s is an entry that the schema takes or says what is wrong with a field',
  (_, form, good, fields) => {
    const signs = fc.constantFrom('.' as const, ',' as const);
    const seen = { entries: 0, problems: 0 };
    fc.assert(
      fc.property(draftOf(good, fields), signs, (draft, sign) => {
        const result = form.build(readDraft({ ...form.begin(WORLD), ...draft }, sign), WORLD);
        seen[result.ok ? 'entries' : 'problems'] += 1;
        if (result.ok)
          expect(evidenceEnteredSchema.safeParse(result.entered).error).toBeUndefined();
        else expect(Object.keys(result.problems)).not.toEqual([]);
      }),
      { numRuns: 1000 },
    );
    expect(Math.min(seen.entries, seen.problems)).toBeGreaterThan(50);
  },
);
