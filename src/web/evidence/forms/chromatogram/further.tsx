import type {
  ChromatogramEntered,
  InternalStandard,
} from '../../../../core/evidence/chromatogram/schema.ts';
import type { Subjects } from '../../../../core/evidence/subject.ts';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, RowsField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { FormWorld } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { needPositive, positive, readChoice } from '../read.ts';
import { filledRows } from '../rows.ts';
import { substanceOptions } from '../substances.ts';
import { LONGEST_min } from './peaks.tsx';
import { nameOptions, namesIn } from './what.ts';

const MOST_mg = 1e6;
const PAIR_KINDS = ['isomers', 'diastereomers', 'enantiomers'] as const;

const of = (subjects: Subjects) => ({ name: 'of', options: substanceOptions(subjects) });
const analyte = (subjects: Subjects) => ({ name: 'analyte', options: substanceOptions(subjects) });

const WHICH = { label: 'Substance', other: 'another substance', otherLabel: 'Its name' } as const;

/** The second first, so that two fields begin with two names. */
const turned = (names: readonly Option[]): readonly Option[] => [
  ...names.slice(1),
  ...names.slice(0, 1),
];

/** What is known beside the run itself: times of known samples, ratios, factors. */
export function FurtherFields({ world: { subjects } }: { readonly world: FormWorld }) {
  const { draft } = useForm();
  const names = namesIn(draft, subjects);
  return (
    <>
      <Seldom
        summary="Known samples under the same conditions"
        fields={['standards', 'window_min']}
      >
        <RowsField
          name="standards"
          label="Known samples"
          each="Known sample"
          addText="Add a known sample"
        >
          <Line>
            <ChoiceOrOther {...of(subjects)} {...WHICH} />
            <NumberField name="retention_min" label="Retention time" unit="min" />
          </Line>
        </RowsField>
        <NumberField
          name="window_min"
          label="A peak is the same within"
          unit="min"
          aid="Empty: 0.05 min, or 1 % of the time."
        />
      </Seldom>
      <Seldom summary="Ratio of two peaks" fields={['pairs']}>
        {names.length < 2 && <p className="evidence-aid">Say first what two of the peaks are.</p>}
        <RowsField name="pairs" label="Ratios" each="Ratio" addText="Add a ratio">
          <ChoiceField
            name="kind"
            label="The two are"
            options={PAIR_KINDS.map((kind): Option => [kind, kind])}
          />
          <Line>
            <ChoiceField name="first" label="One" options={names} />
            <ChoiceField name="second" label="The other" options={turned(names)} />
          </Line>
        </RowsField>
      </Seldom>
      <StandardFields subjects={subjects} />
      <Seldom summary="Response factors" fields={['responses', 'areaU_percent']}>
        <RowsField name="responses" label="Factors" each="Factor" addText="Add a factor">
          <ChoiceOrOther {...of(subjects)} {...WHICH} />
          <Line>
            <NumberField name="factor" label="Area for a mass, one substance being 1" />
            <NumberField name="u" label="Its standard uncertainty" />
          </Line>
        </RowsField>
        <NumberField
          name="areaU_percent"
          label="Standard uncertainty of an area"
          unit="%"
          aid="Between injections. Empty: 1 %."
        />
      </Seldom>
      <Seldom summary="Column and times" fields={['column', 'dead_min', 'from_min', 'note']}>
        <TextField name="column" label="Column" />
        <Line>
          <NumberField name="dead_min" label="Dead time" unit="min" />
          <NumberField name="from_min" label="Count peaks from" unit="min" />
        </Line>
        <TextField name="note" label="Note" />
      </Seldom>
    </>
  );
}

const WEIGHED = ['standardName', 'standard_mg', 'sample_mg', 'massU_mg', 'calibration'];

function StandardFields({ subjects }: { readonly subjects: Subjects }) {
  return (
    <Seldom summary="Internal standard" fields={[...WEIGHED, 'analyte', 'analyteOther']}>
      <TextField name="standardName" label="Internal standard" />
      <ChoiceOrOther {...analyte(subjects)} {...WHICH} label="To measure the amount of" />
      <Line>
        <NumberField name="standard_mg" label="Standard weighed in" unit="mg" />
        <NumberField name="sample_mg" label="Sample weighed in" unit="mg" />
        <NumberField
          name="massU_mg"
          label="Standard uncertainty of a weighing"
          unit="mg"
          aid="Empty: that of an analytical balance."
        />
      </Line>
      <RowsField
        name="calibration"
        label="Mixtures of known composition"
        each="Mixture"
        addText="Add a mixture"
      >
        <Line>
          <NumberField name="analyte_mg" label="Substance in it" unit="mg" />
          <NumberField name="standard_mg" label="Standard in it" unit="mg" />
          <NumberField name="analyteArea" label="Area of the substance" />
          <NumberField name="standardArea" label="Area of the standard" />
        </Line>
      </RowsField>
    </Seldom>
  );
}

function readStandard(reader: DraftReader, subjects: Subjects): Open<InternalStandard> | undefined {
  const mixtures = filledRows(reader, 'calibration', [
    'analyte_mg',
    'standard_mg',
    'analyteArea',
    'standardArea',
  ]);
  const name = reader.text('standardName');
  const isEmpty =
    mixtures.length === 0 &&
    ['standardName', 'standard_mg', 'sample_mg', 'massU_mg'].every(
      (field) => reader.text(field) === undefined,
    );
  if (isEmpty) return undefined;
  if (name === undefined) reader.say('standardName', 'This is needed.');
  if (mixtures.length === 0)
    reader.say('calibration', 'At least one mixture is needed: it gives the response factor.');
  if (mixtures.length > 20) reader.say('calibration', 'At most 20 mixtures.');
  return {
    name: name ?? '',
    standard_mg: needPositive(reader, 'standard_mg', MOST_mg),
    sample_mg: needPositive(reader, 'sample_mg', MOST_mg),
    massU_mg: reader.number('massU_mg', 0, 1000),
    analyte: readChoiceOrOther(reader, analyte(subjects)) ?? '',
    calibration: mixtures.map((row) => ({
      analyte_mg: needPositive(row, 'analyte_mg', MOST_mg),
      standard_mg: needPositive(row, 'standard_mg', MOST_mg),
      analyteArea: needPositive(row, 'analyteArea', 1e15),
      standardArea: needPositive(row, 'standardArea', 1e15),
    })),
  };
}

function readPairs(
  reader: DraftReader,
  peaks: readonly { readonly name?: string | undefined }[],
): Open<ChromatogramEntered['pairs']> {
  const names = nameOptions(peaks.map(({ name }) => name));
  const rows = reader.rows('pairs');
  if (rows.length > 10) reader.say('pairs', 'At most 10 ratios.');
  const end = (row: DraftReader, field: 'first' | 'second', usual: readonly Option[]): string => {
    const name = row.text(field) ?? usual[0]?.[0] ?? '';
    if (!names.some(([known]) => known === name)) row.say(field, 'No peak goes by this name.');
    return name;
  };
  const pairs = rows.map((row) => {
    const [first, second] = [end(row, 'first', names), end(row, 'second', turned(names))];
    if (first !== '' && first === second) row.say('second', 'Another peak is needed here.');
    return { kind: readChoice(row, 'kind', PAIR_KINDS), first, second };
  });
  return pairs.length === 0 ? undefined : pairs;
}

function readResponses(reader: DraftReader, subjects: Subjects) {
  const rows = filledRows(reader, 'responses', ['factor', 'u']);
  if (rows.length > 50) reader.say('responses', 'At most 50 factors.');
  const responses = rows.map((row) => ({
    name: readChoiceOrOther(row, of(subjects)) ?? '',
    factor: needPositive(row, 'factor', 1e6),
    u: row.number('u', 0, 1e6),
  }));
  return responses.length === 0 ? undefined : responses;
}

function readKnown(reader: DraftReader, subjects: Subjects) {
  const rows = filledRows(reader, 'standards', ['retention_min', 'ofOther']);
  if (rows.length > 50) reader.say('standards', 'At most 50 known samples.');
  const standards = rows.map((row) => ({
    name: readChoiceOrOther(row, of(subjects)) ?? '',
    retention_min: row.need('retention_min', 0, LONGEST_min),
  }));
  return standards.length === 0 ? undefined : standards;
}

export function readFurther(
  reader: DraftReader,
  { subjects }: FormWorld,
  peaks: readonly { readonly name?: string | undefined }[],
) {
  const areaU_percent = reader.number('areaU_percent', 0, 100);
  return {
    standards: readKnown(reader, subjects),
    window_min: positive(reader, 'window_min', 10),
    pairs: readPairs(reader, peaks),
    internalStandard: readStandard(reader, subjects),
    responses: readResponses(reader, subjects),
    areaU: areaU_percent === undefined ? undefined : areaU_percent / 100,
    column: reader.text('column', 300),
    dead_min: reader.number('dead_min', 0, LONGEST_min),
    from_min: reader.number('from_min', 0, LONGEST_min),
    note: reader.text('note', 2000),
  };
}
