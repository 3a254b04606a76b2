import type {
  TitrationEntered,
  TitrationKind,
} from '../../../../core/evidence/titration/schema.ts';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { built, useForm } from '../draft.ts';
import type { Built, Draft, DraftReader, Open } from '../draft.ts';
import { ChoiceField, FlagField, NumberField, RowsField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm, FormWorld } from '../form.ts';
import { Seldom } from '../layout.tsx';
import { needPositive, readChoice } from '../read.ts';
import { productOrOptions } from '../substances.ts';
import { readStrength, StrengthFields } from './strength.tsx';
import { readTools, ToolFields } from './tools.tsx';
import { readVolume, VolumeFields } from './volume.tsx';
import type { Reading } from './volume.tsx';
import { KIND_WORDS } from './words.ts';

const KINDS = [
  'acid',
  'base',
  'saponification',
  'iodometric',
] as const satisfies readonly TitrationKind[];
const READINGS = ['readings', 'titre'] as const satisfies readonly Reading[];
const MOST_RUNS = 50;
const MOST_BLANKS = 20;

const kindIn = (draft: Draft): TitrationKind =>
  KINDS.find((kind) => kind === draft['kind']) ?? KINDS[0];
const readingIn = (draft: Draft): Reading => (draft['reading'] === 'titre' ? 'titre' : 'readings');

// What is usual differs from kind to kind, so that each kind keeps what was chosen for it.
const titrantsOf = (kind: TitrationKind) => ({
  name: `titrant_${kind}`,
  options: KIND_WORDS[kind].titrants.map((name): Option => [name, name]),
});
const equivalentsOf = (kind: TitrationKind): string => `equivalents_${kind}`;
const analytesOf = ({ subjects }: FormWorld) => ({
  name: 'analyte',
  options: productOrOptions(subjects),
});

function Fields({ world }: { readonly world: FormWorld }) {
  const { draft } = useForm();
  const kind = kindIn(draft);
  const reading = readingIn(draft);
  return (
    <>
      <ChoiceField
        name="kind"
        label="What is titrated"
        options={KINDS.map((one) => [one, KIND_WORDS[one].name])}
      />
      <ChoiceOrOther
        {...analytesOf(world)}
        label="Counted as"
        other="another substance"
        otherLabel="Its name"
      />
      <NumberField
        name={equivalentsOf(kind)}
        label="Moles of titrant for one mole of it"
        aid={KIND_WORDS[kind].counting}
      />
      <ChoiceField
        name="reading"
        label="The burette is noted"
        options={[
          ['readings', 'before and after'],
          ['titre', 'as the volume given'],
        ]}
      />
      <ChoiceOrOther
        {...titrantsOf(kind)}
        label="In the burette"
        other="another titrant"
        otherLabel="Name of the titrant"
      />
      <StrengthFields kind={kind} reading={reading} />
      <Blanks isNeeded={kind === 'saponification'} reading={reading} />
      <RowsField name="runs" label="Runs with the sample" each="Run" addText="Add a run">
        <NumberField name="sample_g" label="Sample" unit="g" />
        <VolumeFields reading={reading} />
        <FlagField name="leftOut" label="Trial, not counted" />
      </RowsField>
      <ToolFields />
    </>
  );
}

/** Without the blank a saponification tells nothing; elsewhere it is a refinement. */
function Blanks({ isNeeded, reading }: { readonly isNeeded: boolean; readonly reading: Reading }) {
  const rows = (
    <RowsField
      name="blanks"
      label={isNeeded ? 'Blank: the same base, boiled alike, no sample' : 'Without the sample'}
      each="Blank"
      addText="Add a blank"
    >
      <VolumeFields reading={reading} />
    </RowsField>
  );
  if (isNeeded) return rows;
  return (
    <Seldom summary="Blank" fields={['blanks']}>
      {rows}
    </Seldom>
  );
}

function readBlanks(reader: DraftReader, kind: TitrationKind, reading: Reading) {
  const rows = reader.rows('blanks');
  if (rows.length === 0 && kind === 'saponification')
    reader.say('blanks', 'A saponification needs its blank.');
  if (rows.length > MOST_BLANKS) reader.say('blanks', `At most ${MOST_BLANKS} blanks.`);
  return rows.length === 0 ? undefined : rows.map((row) => readVolume(row, reading));
}

function build(reader: DraftReader, world: FormWorld): Built {
  const kind = readChoice(reader, 'kind', KINDS);
  const reading = readChoice(reader, 'reading', READINGS);
  const rows = reader.rows('runs');
  if (rows.length === 0) reader.say('runs', 'One run is needed, better three.');
  if (rows.length > MOST_RUNS) reader.say('runs', `At most ${MOST_RUNS} runs.`);
  const entered: Open<TitrationEntered> = {
    technique: 'titration',
    kind,
    analyte: readChoiceOrOther(reader, analytesOf(world)),
    equivalents: needPositive(reader, equivalentsOf(kind), 12),
    titrant: readChoiceOrOther(reader, titrantsOf(kind)) ?? '',
    strength: readStrength(reader, kind, reading),
    blanks: readBlanks(reader, kind, reading),
    runs: rows.map((row) => ({
      sample_g: needPositive(row, 'sample_g', 10_000),
      ...readVolume(row, reading),
      leftOut: row.flag('leftOut'),
    })),
    ...readTools(reader),
  };
  return built(reader, entered);
}

/** A titration: what is in the burette and how strong, the blanks, and the runs. */
export const titrationForm: EvidenceForm = {
  technique: 'titration',
  begin: () => ({
    ...Object.fromEntries(KINDS.map((kind) => [equivalentsOf(kind), KIND_WORDS[kind].equivalents])),
    runs: [{}, {}],
    standardRuns: [{}],
  }),
  fields: (world) => <Fields world={world} />,
  build,
};
