import type { RefractionEntered } from '../../../../core/evidence/refraction/schema.ts';
import { built } from '../draft.ts';
import type { Built, DraftReader, Open } from '../draft.ts';
import { FlagField, NumberField } from '../fields.tsx';
import type { EvidenceForm } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { COLDEST_C, HOTTEST_C, needPositive, needTemperature } from '../read.ts';

function Fields() {
  return (
    <>
      <Line>
        <NumberField name="index" label="Refractive index, sodium D line" />
        <NumberField name="T_C" label="Temperature of the prism" unit="°C" />
      </Line>
      <FlagField name="compensated" label="The instrument corrected it to 20 °C by itself" />
      <Seldom summary="Check with water" fields={['waterIndex', 'waterT_C']}>
        <Line>
          <NumberField name="waterIndex" label="Index of pure water" />
          <NumberField
            name="waterT_C"
            label="Temperature, water"
            unit="°C"
            aid="Empty: as for the sample."
          />
        </Line>
      </Seldom>
      <Seldom summary="Instrument, and change with temperature" fields={['tolerance', 'fall_perC']}>
        <NumberField
          name="tolerance"
          label="Instrument good to ±"
          aid="As its manual says. Empty: a usual bench instrument is taken."
        />
        <NumberField
          name="fall_perC"
          label="Fall of the index"
          unit="per °C"
          aid="Where it is known for this liquid."
        />
      </Seldom>
    </>
  );
}

function readWater(reader: DraftReader, sampleT_C: number): RefractionEntered['water'] {
  const T_C = reader.number('waterT_C', COLDEST_C, HOTTEST_C);
  if (T_C === undefined && reader.text('waterIndex') === undefined) return undefined;
  return { index: needPositive(reader, 'waterIndex', 1000), T_C: T_C ?? sampleT_C };
}

function build(reader: DraftReader): Built {
  const T_C = needTemperature(reader, 'T_C');
  const entered: Open<RefractionEntered> = {
    technique: 'refractiveIndex',
    index: needPositive(reader, 'index', 1000),
    T_C,
    compensated: reader.flag('compensated'),
    water: readWater(reader, T_C),
    tolerance: reader.number('tolerance', 0, 1),
    fall_perC: reader.number('fall_perC', 0, 0.01),
  };
  return built(reader, entered);
}

/** A refractive index at the sodium D line. */
export const refractionForm: EvidenceForm = {
  technique: 'refractiveIndex',
  begin: () => ({}),
  fields: () => <Fields />,
  build,
};
