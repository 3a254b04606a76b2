import type { Thermometer } from '../../../../core/evidence/melting/schema.ts';
import { useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, RowsField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import { Line, Seldom } from '../layout.tsx';
import { needTemperature, readChoice, some } from '../read.ts';

const FIELDS = ['tolerance_C', 'emergent_C', 'stem_C', 'calibration'];

const KINDS: readonly Option[] = [
  ['', 'not noted'],
  ['digital', 'digital'],
  ['mercury', 'mercury in glass'],
  ['alcohol', 'alcohol in glass'],
];

/** What is known of the thermometer and its errors: shut, since it seldom changes. */
export function ThermometerFields() {
  const { draft } = useForm();
  return (
    <Seldom summary="Thermometer: kind, standards, stem" fields={FIELDS}>
      <ChoiceField name="thermometerKind" label="Thermometer" options={KINDS} />
      <NumberField
        name="tolerance_C"
        label="Good to ±"
        unit="°C"
        aid="As its certificate says. Empty: ±1 °C is taken."
      />
      <RowsField
        name="calibration"
        label="Standards melted or boiled in the same apparatus"
        each="Standard"
        addText="Add a standard"
      >
        <TextField name="standard" label="Standard" />
        <Line>
          <NumberField name="measured_C" label="Read" unit="°C" />
          <NumberField name="true_C" label="Should be" unit="°C" />
        </Line>
      </RowsField>
      {draft['thermometerKind'] !== 'digital' && (
        <Line>
          <NumberField name="emergent_C" label="Thread outside the bath" unit="°C of scale" />
          <NumberField name="stem_C" label="Temperature beside it" unit="°C" />
        </Line>
      )}
    </Seldom>
  );
}

/** Nothing where nothing of it was noted. */
export function readThermometer(reader: DraftReader): Open<Thermometer> | undefined {
  const kind = readChoice(reader, 'thermometerKind', ['', 'digital', 'mercury', 'alcohol']);
  const calibration = reader.rows('calibration').map((row) => ({
    standard: row.text('standard'),
    measured_C: needTemperature(row, 'measured_C'),
    true_C: needTemperature(row, 'true_C'),
  }));
  if (calibration.length > 20) reader.say('calibration', 'At most 20 standards.');
  return some({
    kind: kind === '' ? undefined : kind,
    tolerance_C: reader.number('tolerance_C', 0, 50),
    calibration: calibration.length === 0 ? undefined : calibration,
    stem: kind === 'digital' ? undefined : readStem(reader),
  });
}

function readStem(reader: DraftReader) {
  const isEmpty = ['emergent_C', 'stem_C'].every((field) => reader.text(field) === undefined);
  if (isEmpty) return undefined;
  return {
    emergent_C: reader.need('emergent_C', 0, 1000),
    stem_C: needTemperature(reader, 'stem_C'),
  };
}
