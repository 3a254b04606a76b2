import type { MeltingEntered } from '../../../../core/evidence/melting/schema.ts';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { built, useForm } from '../draft.ts';
import type { Built, DraftReader, Open } from '../draft.ts';
import { ChoiceField, FlagField, NumberField } from '../fields.tsx';
import type { EvidenceForm, FormWorld } from '../form.ts';
import { Group, Line, Seldom } from '../layout.tsx';
import { needRange, readChoice, readRange } from '../read.ts';
import { substanceOptions } from '../substances.ts';
import { readThermometer, ThermometerFields } from './thermometer-fields.tsx';

const SAMPLES = ['product', 'mixed', 'authentic'] as const;

const SAMPLE_WORDS: Readonly<Record<MeltingEntered['sample'], string>> = {
  product: 'the product',
  mixed: 'the product mixed with a known sample',
  authentic: 'a known sample of the product',
};

const knownIn = ({ subjects }: FormWorld) => ({
  name: 'known',
  options: substanceOptions(subjects),
});

function Fields({ world }: { readonly world: FormWorld }) {
  const { draft } = useForm();
  return (
    <>
      <ChoiceField
        name="sample"
        label="In the capillary"
        options={SAMPLES.map((sample) => [sample, SAMPLE_WORDS[sample]])}
      />
      {draft['sample'] === 'mixed' && (
        <ChoiceOrOther
          {...knownIn(world)}
          label="Mixed with"
          other="another substance"
          otherLabel="Its name"
        />
      )}
      <Line>
        <NumberField name="low_C" label="First liquid at" unit="°C" />
        <NumberField name="high_C" label="Last crystal gone at" unit="°C" />
      </Line>
      <FlagField name="decomposes" label="It decomposed" />
      <FlagField name="sublimes" label="It sublimed" />
      {draft['sample'] === 'mixed' && <Alone />}
      <Seldom summary="Heating rate" fields={['heatingRate_C_min']}>
        <NumberField name="heatingRate_C_min" label="Near the melting point" unit="°C/min" />
      </Seldom>
      <ThermometerFields />
    </>
  );
}

/** What the mixture is held against; without them the literature is taken. */
function Alone() {
  return (
    <>
      <Group label="The product alone">
        <NumberField name="aloneLow_C" label="from" unit="°C" />
        <NumberField name="aloneHigh_C" label="to" unit="°C" />
      </Group>
      <Group label="The known sample alone">
        <NumberField name="knownLow_C" label="from" unit="°C" />
        <NumberField name="knownHigh_C" label="to" unit="°C" />
      </Group>
      <p className="evidence-aid">
        With the same thermometer. Left empty, the literature is taken.
      </p>
    </>
  );
}

function build(reader: DraftReader, world: FormWorld): Built {
  const sample = readChoice(reader, 'sample', SAMPLES);
  const isMixed = sample === 'mixed';
  const entered: Open<MeltingEntered> = {
    technique: 'meltingRange',
    sample,
    ...needRange(reader, 'low_C', 'high_C'),
    decomposes: reader.flag('decomposes'),
    sublimes: reader.flag('sublimes'),
    mixedWith: isMixed
      ? {
          substance: readChoiceOrOther(reader, knownIn(world)) ?? '',
          range: readRange(reader, 'knownLow_C', 'knownHigh_C'),
        }
      : undefined,
    alone: isMixed ? readRange(reader, 'aloneLow_C', 'aloneHigh_C') : undefined,
    heatingRate_C_min: reader.number('heatingRate_C_min', 0, 1000),
    thermometer: readThermometer(reader),
  };
  return built(reader, entered);
}

/** A melting range: of the product, mixed with a known sample, or of a known sample. */
export const meltingForm: EvidenceForm = {
  technique: 'meltingRange',
  begin: () => ({}),
  fields: (world) => <Fields world={world} />,
  build,
};
