import type { DensityEntered } from '../../../../core/evidence/density/schema.ts';
import { built, useForm } from '../draft.ts';
import type { Built, DraftReader, Open } from '../draft.ts';
import { ChoiceField, FlagField, NumberField } from '../fields.tsx';
import type { EvidenceForm } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { COLDEST_C, HOTTEST_C, needPositive, needTemperature, readChoice } from '../read.ts';

type By = DensityEntered['by'];

const KINDS = ['pycnometer', 'shown'] as const;
const MOST_G = 1e6;

const FIELDS_OF: Readonly<Record<By['kind'], () => React.JSX.Element>> = {
  pycnometer: Weighings,
  shown: Shown,
};

function Fields() {
  const { draft } = useForm();
  const FieldsOf = FIELDS_OF[draft['by'] === 'shown' ? 'shown' : 'pycnometer'];
  return (
    <>
      <ChoiceField
        name="by"
        label="Measured by"
        options={[
          ['pycnometer', 'weighing a pycnometer'],
          ['shown', 'an instrument that shows it'],
        ]}
      />
      <FieldsOf />
      <Seldom summary="Change with temperature" fields={['fall_g_mL_perC']}>
        <NumberField
          name="fall_g_mL_perC"
          label="Fall of the density"
          unit="g/mL per °C"
          aid="Where it is known for this liquid. Empty: that of a usual organic liquid."
        />
      </Seldom>
    </>
  );
}

function Weighings() {
  return (
    <>
      <Line>
        <NumberField name="empty_g" label="Empty and dry" unit="g" />
        <NumberField name="withWater_g" label="Full of water" unit="g" />
        <NumberField name="withSample_g" label="Full of the sample" unit="g" />
      </Line>
      <Line>
        <NumberField name="T_C" label="Temperature of the sample" unit="°C" />
        <NumberField
          name="waterT_C"
          label="Temperature of the water"
          unit="°C"
          aid="Empty: as the sample."
        />
      </Line>
      <Seldom summary="Balance, and the air" fields={['readability_g']}>
        <NumberField
          name="readability_g"
          label="Smallest step of the balance"
          unit="g"
          aid="Empty: 0.001 g is taken."
        />
        <FlagField name="withoutAir" label="Leave the buoyancy of air out of account" />
      </Seldom>
    </>
  );
}

function Shown() {
  return (
    <>
      <Line>
        <NumberField name="density_g_mL" label="Density shown" unit="g/mL" />
        <NumberField name="T_C" label="Temperature of the sample" unit="°C" />
      </Line>
      <Seldom summary="Instrument" fields={['tolerance_g_mL']}>
        <NumberField
          name="tolerance_g_mL"
          label="Instrument good to ±"
          unit="g/mL"
          aid="As its manual says."
        />
      </Seldom>
    </>
  );
}

const READ_OF: Readonly<Record<By['kind'], (reader: DraftReader) => Open<By>>> = {
  pycnometer(reader) {
    const empty_g = needPositive(reader, 'empty_g', MOST_G);
    const [withWater_g, withSample_g] = (['withWater_g', 'withSample_g'] as const).map((field) => {
      const full_g = needPositive(reader, field, MOST_G);
      if (full_g <= empty_g) reader.say(field, 'Full it weighs more than empty.');
      return full_g;
    }) as [number, number];
    return {
      kind: 'pycnometer',
      empty_g,
      withWater_g,
      withSample_g,
      waterT_C: reader.number('waterT_C', COLDEST_C, HOTTEST_C),
      readability_g: reader.number('readability_g', 0, 100),
      buoyancy: reader.flag('withoutAir') === true ? false : undefined,
    };
  },
  shown: (reader) => ({
    kind: 'shown',
    density_g_mL: needPositive(reader, 'density_g_mL', 100_000),
    tolerance_g_mL: reader.number('tolerance_g_mL', 0, 100),
  }),
};

function build(reader: DraftReader): Built {
  const entered: Open<DensityEntered> = {
    technique: 'density',
    by: READ_OF[readChoice(reader, 'by', KINDS)](reader),
    T_C: needTemperature(reader, 'T_C'),
    fall_g_mL_perC: reader.number('fall_g_mL_perC', 0, 0.1),
  };
  return built(reader, entered);
}

/** A density: three weighings of a pycnometer, or a figure that an instrument shows. */
export const densityForm: EvidenceForm = {
  technique: 'density',
  begin: () => ({}),
  fields: () => <Fields />,
  build,
};
