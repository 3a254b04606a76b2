import type { BoilingEntered, PressureUnit } from '../../../../core/evidence/boiling/schema.ts';
import { built, useForm } from '../draft.ts';
import type { Built, DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField } from '../fields.tsx';
import type { EvidenceForm } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { readThermometer, ThermometerFields } from '../melting/thermometer-fields.tsx';
import { needRange, needTemperature, readChoice } from '../read.ts';

const METHODS = ['distillation', 'microscale'] as const;

/** The first stands until another is chosen: what the weather service and a gauge give. */
const UNITS = ['mbar', 'mmHg', 'kPa', 'atm'] as const satisfies readonly PressureUnit[];

const UNIT_WORDS: Readonly<Record<PressureUnit, string>> = {
  mbar: 'mbar (hPa)',
  mmHg: 'mmHg (Torr)',
  kPa: 'kPa',
  atm: 'atm',
};

const ASSOCIATIONS = ['', 'yes', 'no'] as const;

const isMicroscale = (method: unknown): boolean => method === 'microscale';

function Fields() {
  const { draft } = useForm();
  return (
    <>
      <ChoiceField
        name="method"
        label="How it was boiled"
        options={[
          ['distillation', 'distilled, thermometer in the vapour'],
          ['microscale', 'a few drops, inverted capillary'],
        ]}
      />
      {isMicroscale(draft['method']) ? (
        <NumberField name="point_C" label="Boiling point" unit="°C" />
      ) : (
        <Line>
          <NumberField name="low_C" label="First drops at" unit="°C" />
          <NumberField name="high_C" label="Last drops at" unit="°C" />
        </Line>
      )}
      <Line>
        <NumberField name="pressure" label="Pressure" />
        <ChoiceField
          name="pressureUnit"
          label="Unit"
          options={UNITS.map((unit) => [unit, UNIT_WORDS[unit]])}
        />
      </Line>
      <p className="evidence-aid">
        Of the room, not reduced to sea level, or of the vacuum gauge. Left empty: an ordinary day
        at sea level is taken.
      </p>
      <ThermometerFields />
      <Seldom summary="Correction for pressure">
        <ChoiceField
          name="hydrogenBonded"
          label="The liquid is held together by hydrogen bonds"
          options={[
            ['', 'as its structure says'],
            ['yes', 'yes: an alcohol, an acid, water'],
            ['no', 'no'],
          ]}
        />
      </Seldom>
    </>
  );
}

function readEnds(reader: DraftReader, isPoint: boolean) {
  if (!isPoint) return needRange(reader, 'low_C', 'high_C');
  const point_C = needTemperature(reader, 'point_C');
  return { low_C: point_C, high_C: point_C };
}

function build(reader: DraftReader): Built {
  const method = readChoice(reader, 'method', METHODS);
  const value = reader.number('pressure', 0, 1e6);
  const bonded = readChoice(reader, 'hydrogenBonded', ASSOCIATIONS);
  const entered: Open<BoilingEntered> = {
    technique: 'boilingRange',
    method,
    ...readEnds(reader, isMicroscale(method)),
    pressure:
      value === undefined ? undefined : { value, unit: readChoice(reader, 'pressureUnit', UNITS) },
    thermometer: readThermometer(reader),
    hydrogenBonded: bonded === '' ? undefined : bonded === 'yes',
  };
  return built(reader, entered);
}

/** A boiling or distilling range with the pressure that it was read at. */
export const boilingForm: EvidenceForm = {
  technique: 'boilingRange',
  begin: () => ({}),
  fields: () => <Fields />,
  build,
};
