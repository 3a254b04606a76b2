import type { ChemicalTestEntered } from '../../../../core/evidence/chemical-test/schema.ts';
import {
  allChemicalTests,
  findChemicalTest,
} from '../../../../core/evidence/chemical-test/table.ts';
import type { ChemicalTest } from '../../../../core/evidence/chemical-test/table.ts';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { built, useForm } from '../draft.ts';
import type { Built, Draft, DraftReader, Open } from '../draft.ts';
import { ChoiceField, RowsField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { readChoice } from '../read.ts';
import { AnswerField } from './answer-field.tsx';
import './chemical-test.css';

type Use = ChemicalTest['use'];

const USE_WORDS: Readonly<Record<Use, string>> = {
  structure: 'For a group in the product',
  workUp: 'For washings and leftovers',
};

const TESTS: readonly Option[] = [
  ['', 'choose one'],
  ...allChemicalTests().map(({ id, name, use }): Option => [id, name, USE_WORDS[use]]),
];

/** What a test is usually done on: common practice. A structure is always that of the product. */
const SAMPLES_OF: Readonly<Record<Use, readonly Option[]>> = {
  structure: ['product', 'crude product'].map((sample) => [sample, sample]),
  workUp: ['last washing', 'product', 'solvent'].map((sample) => [sample, sample]),
};

const RESULTS = ['', 'positive', 'negative', 'unclear'] as const;
const CONTROLS: readonly Option[] = [
  ['', 'not done'],
  ['positive', 'positive'],
  ['negative', 'negative'],
  ['unclear', 'unclear'],
];
const MOST_TESTS = 40;

const samplesOf = (test: ChemicalTest | undefined) => {
  const use = test?.use ?? 'structure';
  return { name: `sample_${use}`, options: SAMPLES_OF[use] };
};

function testIn(draft: Draft): ChemicalTest | undefined {
  const { test } = draft;
  return typeof test === 'string' ? findChemicalTest(test) : undefined;
}

function OneTest() {
  const { draft } = useForm();
  const test = testIn(draft);
  return (
    <div className="evidence-test">
      <ChoiceField name="test" label="Test" options={TESTS} />
      {test !== undefined && <Caution test={test} />}
      <ChoiceOrOther
        {...samplesOf(test)}
        label="On what"
        other="another portion"
        otherLabel="What it was"
        {...(test?.use !== 'workUp' && {
          aid: 'It is compared with the product. A substance tested beside it is a control.',
        })}
      />
      <AnswerField test={test} />
      <TextField name="observed" label="In your own words" />
      <Seldom summary="Controls">
        <Line>
          <ChoiceField name="blank" label="The reagent alone" options={CONTROLS} />
          <ChoiceField
            name="knownPositive"
            label="A substance that must answer"
            options={CONTROLS}
          />
        </Line>
      </Seldom>
    </div>
  );
}

function Caution({ test: { cautions } }: { readonly test: ChemicalTest }) {
  return (
    <p className="evidence-caution">
      <strong>Before you start.</strong> {cautions} Follow the supplier’s safety data sheet, local
      rules and whoever is responsible.
    </p>
  );
}

function Fields() {
  return (
    <>
      <RowsField name="tests" label="Tests, in the order done" each="Test" addText="Add a test">
        <OneTest />
      </RowsField>
      <Seldom summary="Note" fields={['note']}>
        <TextField name="note" label="Note on all of them" />
      </Seldom>
    </>
  );
}

function readTest(row: DraftReader): Open<ChemicalTestEntered['tests'][number]> {
  const test = row.text('test');
  if (test === undefined) row.say('test', 'Choose the test.');
  const result = readChoice(row, 'result', RESULTS);
  if (result === '') row.say('result', 'Choose what was seen.');
  const [blank, knownPositive] = [
    readChoice(row, 'blank', RESULTS),
    readChoice(row, 'knownPositive', RESULTS),
  ];
  return {
    test: test ?? '',
    sample: readChoiceOrOther(row, samplesOf(findChemicalTest(test ?? ''))),
    result: result === '' ? 'unclear' : result,
    observed: row.text('observed', 1000),
    blank: blank === '' ? undefined : blank,
    knownPositive: knownPositive === '' ? undefined : knownPositive,
  };
}

function build(reader: DraftReader): Built {
  const rows = reader.rows('tests');
  if (rows.length === 0) reader.say('tests', 'One test is needed.');
  if (rows.length > MOST_TESTS) reader.say('tests', `At most ${MOST_TESTS} tests.`);
  const entered: Open<ChemicalTestEntered> = {
    technique: 'chemicalTest',
    tests: rows.map(readTest),
    note: reader.text('note', 2000),
  };
  return built(reader, entered);
}

/** Tests in a tube, on paper or in a flame, in the order in which they were done. */
export const chemicalTestForm: EvidenceForm = {
  technique: 'chemicalTest',
  begin: () => ({ tests: [{}] }),
  fields: () => <Fields />,
  build,
};
