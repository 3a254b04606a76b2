import type { RotationEntered } from '../../../../core/evidence/rotation/schema.ts';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { built, useForm } from '../draft.ts';
import type { Built, DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { COLDEST_C, HOTTEST_C, needPositive, needTemperature, readChoice, some } from '../read.ts';

type Sample = RotationEntered['sample'];

const KINDS = ['solution', 'neat'] as const;
const UNITS = ['g/100 mL', 'g/mL'] as const;
const MOST = 1e6;

/** Usual solvents of polarimetry: common practice. */
const SOLVENTS: readonly Option[] = [
  ['', 'not noted'],
  ...['water', 'ethanol', 'methanol', 'chloroform', 'dichloromethane', 'acetone'].map(
    (name): Option => [name, name],
  ),
];

const SOLVENT = { name: 'solvent', options: SOLVENTS };
const LITERATURE_SOLVENT = { name: 'literatureSolvent', options: SOLVENTS };
const other = { other: 'another solvent', otherLabel: 'Name of the solvent' };

const LITERATURE_FIELDS = ['literatureSolventOther', 'literatureConcentration', 'literatureT_C'];

function Fields() {
  const { draft } = useForm();
  return (
    <>
      <ChoiceField
        name="sample"
        label="In the tube"
        options={[
          ['solution', 'a solution of the product'],
          ['neat', 'the neat liquid'],
        ]}
      />
      {draft['sample'] === 'neat' ? (
        <NumberField name="density_g_mL" label="Density of the liquid" unit="g/mL" />
      ) : (
        <>
          <Line>
            <NumberField name="concentration" label="Concentration" />
            <ChoiceField name="unit" label="Unit" options={UNITS.map((unit) => [unit, unit])} />
          </Line>
          <ChoiceOrOther {...SOLVENT} label="Solvent" {...other} />
        </>
      )}
      <NumberField name="length_dm" label="Length of the tube" unit="dm" aid="10 cm are 1 dm." />
      <Line>
        <NumberField name="blank_deg" label="Blank" unit="°" aid="The solvent alone. Empty: 0." />
        <NumberField name="observed_deg" label="Sample" unit="°" aid="As shown, − to the left." />
        <NumberField name="T_C" label="Temperature" unit="°C" />
      </Line>
      <Seldom summary="Lamp and instrument" fields={['wavelength_nm', 'tolerance_deg']}>
        <NumberField
          name="wavelength_nm"
          label="Wavelength"
          unit="nm"
          aid="Empty: 589 nm, the sodium D line."
        />
        <NumberField name="tolerance_deg" label="A reading is good to ±" unit="°" />
      </Seldom>
      <Seldom summary="How the literature value was measured" fields={LITERATURE_FIELDS}>
        <ChoiceOrOther {...LITERATURE_SOLVENT} label="Solvent of the literature" {...other} />
        <NumberField
          name="literatureConcentration"
          label="Concentration of the literature"
          unit="g/100 mL"
        />
        <NumberField name="literatureT_C" label="Temperature of the literature" unit="°C" />
      </Seldom>
    </>
  );
}

const READ_OF: Readonly<Record<Sample['kind'], (reader: DraftReader) => Open<Sample>>> = {
  solution: (reader) => ({
    kind: 'solution',
    concentration: needPositive(reader, 'concentration', MOST),
    unit: readChoice(reader, 'unit', UNITS),
    solvent: readChoiceOrOther(reader, SOLVENT),
  }),
  neat: (reader) => ({
    kind: 'neat',
    density_g_mL: needPositive(reader, 'density_g_mL', MOST),
  }),
};

function build(reader: DraftReader): Built {
  const entered: Open<RotationEntered> = {
    technique: 'rotation',
    sample: READ_OF[readChoice(reader, 'sample', KINDS)](reader),
    length_dm: needPositive(reader, 'length_dm', MOST),
    blank_deg: reader.number('blank_deg', -MOST, MOST),
    observed_deg: reader.need('observed_deg', -MOST, MOST),
    T_C: needTemperature(reader, 'T_C'),
    wavelength_nm: reader.number('wavelength_nm', 0, 100_000),
    tolerance_deg: reader.number('tolerance_deg', 0, 100),
    literature: some({
      solvent: readChoiceOrOther(reader, LITERATURE_SOLVENT),
      concentration_g_100mL: reader.number('literatureConcentration', 0, MOST),
      T_C: reader.number('literatureT_C', COLDEST_C, HOTTEST_C),
    }),
  };
  return built(reader, entered);
}

/** An optical rotation, of a solution or of the neat liquid. */
export const rotationForm: EvidenceForm = {
  technique: 'rotation',
  begin: () => ({}),
  fields: () => <Fields />,
  build,
};
