import type {
  TitrationKind,
  TitrationStrength,
} from '../../../../core/evidence/titration/schema.ts';
import { builtInSubstances } from '../../../../core/chemistry/substance.ts';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { useForm } from '../draft.ts';
import type { Draft, DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, RowsField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import { Line, Seldom } from '../layout.tsx';
import { needPositive, readChoice } from '../read.ts';
import { readVolume, VolumeFields } from './volume.tsx';
import type { Reading } from './volume.tsx';
import { KIND_WORDS } from './words.ts';

const WAYS = ['given', 'standardised'] as const;
const MOST_RUNS = 20;

const standardsOf = (kind: TitrationKind) => ({
  name: `standard_${kind}`,
  options: KIND_WORDS[kind].standards.map((name): Option => [name, name]),
});

/** Of a substance of the table. */
function molarMassOf(name: string | undefined): number | undefined {
  return builtInSubstances().find((substance) => substance.name === name)?.molarMass_g_mol;
}

/** The standard that is chosen now; undefined where it is written in the person's words. */
function chosenIn(draft: Draft, kind: TitrationKind): string | undefined {
  const { name, options } = standardsOf(kind);
  const chosen = draft[name] ?? options[0]?.[0];
  return options.some(([option]) => option === chosen) ? (chosen as string) : undefined;
}

/** How strong the titrant is: as told, or from a primary standard. */
export function StrengthFields({
  kind,
  reading,
}: {
  readonly kind: TitrationKind;
  readonly reading: Reading;
}) {
  const { draft } = useForm();
  const { strength: aid } = KIND_WORDS[kind];
  return (
    <>
      <ChoiceField
        name="strength"
        label="Its concentration"
        options={[
          ['given', 'as the bottle says'],
          ['standardised', 'from a primary standard'],
        ]}
      />
      {draft['strength'] === 'standardised' ? (
        <Standardisation kind={kind} reading={reading} />
      ) : (
        <>
          <NumberField
            name="concentration_mol_L"
            label="Concentration"
            unit="mol/L"
            {...(aid !== undefined && { aid })}
          />
          <Seldom summary="How well it is known" fields={['u_mol_L']}>
            <NumberField
              name="u_mol_L"
              label="Standard uncertainty"
              unit="mol/L"
              aid="Empty: 0.5 % of it is taken."
            />
          </Seldom>
        </>
      )}
    </>
  );
}

function Standardisation({
  kind,
  reading,
}: {
  readonly kind: TitrationKind;
  readonly reading: Reading;
}) {
  const { draft } = useForm();
  const isKnown = molarMassOf(chosenIn(draft, kind)) !== undefined;
  return (
    <>
      <ChoiceOrOther
        {...standardsOf(kind)}
        label="Primary standard"
        other="another"
        otherLabel="Its name"
      />
      {!isKnown && (
        <NumberField name="standardMolarMass_g_mol" label="Its molar mass" unit="g/mol" />
      )}
      <NumberField
        name="standardEquivalents"
        label="Moles of titrant for one mole of the standard"
        aid={KIND_WORDS[kind].countingStandard}
      />
      <RowsField
        name="standardRuns"
        label="Runs with the standard"
        each="Run with the standard"
        addText="Add a run with the standard"
      >
        <NumberField name="standard_g" label="Standard weighed in" unit="g" />
        <VolumeFields reading={reading} />
      </RowsField>
      <Seldom summary="Purity of the standard" fields={['purity', 'purityU']}>
        <Line>
          <NumberField name="purity" label="Purity by mass" unit="%" aid="Empty: 100 %." />
          <NumberField name="purityU" label="Its standard uncertainty" unit="%" />
        </Line>
      </Seldom>
    </>
  );
}

const percent = (value: number | undefined): number | undefined =>
  value === undefined ? undefined : value / 100;

function readStandardised(
  reader: DraftReader,
  kind: TitrationKind,
  reading: Reading,
): Open<TitrationStrength> {
  const standard = readChoiceOrOther(reader, standardsOf(kind)) ?? '';
  const rows = reader.rows('standardRuns');
  if (rows.length === 0) reader.say('standardRuns', 'One run is needed, better three.');
  if (rows.length > MOST_RUNS) reader.say('standardRuns', `At most ${MOST_RUNS} runs.`);
  const { options } = standardsOf(kind);
  const known = options.some(([name]) => name === standard) ? molarMassOf(standard) : undefined;
  return {
    by: 'standardised',
    standard,
    molarMass_g_mol: known ?? needPositive(reader, 'standardMolarMass_g_mol', 5000),
    equivalents: needPositive(reader, 'standardEquivalents', 12),
    purity: percent(reader.number('purity', 50, 100)),
    purityU: percent(reader.number('purityU', 0, 50)),
    runs: rows.map((row) => ({
      standard_g: needPositive(row, 'standard_g', 10_000),
      ...readVolume(row, reading),
    })),
  };
}

export function readStrength(
  reader: DraftReader,
  kind: TitrationKind,
  reading: Reading,
): Open<TitrationStrength> {
  if (readChoice(reader, 'strength', WAYS) === 'standardised')
    return readStandardised(reader, kind, reading);
  return {
    by: 'given',
    concentration_mol_L: needPositive(reader, 'concentration_mol_L', 20),
    u_mol_L: reader.number('u_mol_L', 0, 1),
  };
}
