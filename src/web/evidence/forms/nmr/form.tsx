import { signalsOfTrace } from '../../../../core/evidence/nmr/from-trace.ts';
import type { TraceSignalsReading } from '../../../../core/evidence/nmr/from-trace.ts';
import { middleOf } from '../../../../core/evidence/nmr/signal.ts';
import { NMR_SOLVENTS } from '../../../../core/evidence/nmr/solvents.ts';
import type { NmrEntered } from '../../../../core/evidence/nmr/schema.ts';
import type { MeasuredTrace } from '../../../../core/evidence/spectrum/trace.ts';
import { built, useForm } from '../draft.ts';
import type { Draft, DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, RowsField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm, FormWorld } from '../form.ts';
import { FileFindings, fileNameOf, traceOf, typed } from '../from-file.tsx';
import { Line, Seldom } from '../layout.tsx';
import { positive, readChoice } from '../read.ts';
import { filledRows } from '../rows.ts';
import { NOBODY, SOLVENTS, ownersOf, readOwner } from './owner.ts';
import { readCouplings, readPattern, readShift, signalDraft } from './signal-text.ts';
import { StandardFields, readStandard } from './standard.tsx';
import './nmr.css';

const MOST_SIGNALS = 200;

/** A trace is read once, however often the page is drawn. */
const readings = new WeakMap<MeasuredTrace, TraceSignalsReading>();

function signalsIn(world: FormWorld): TraceSignalsReading | undefined {
  const trace = traceOf(world, 'nmr');
  if (trace === undefined) return undefined;
  const reading = readings.get(trace) ?? signalsOfTrace(trace);
  readings.set(trace, reading);
  return reading;
}

function SignalFields({ owners }: { readonly owners: ReturnType<typeof ownersOf> }) {
  const { draft } = useForm();
  const owner = owners.find(({ value }) => value === draft['owner']);
  return (
    <div className="nmr-signal">
      <TextField name="shift" label="Shift or range in ppm" />
      <NumberField name="integral" label="Integral" />
      <TextField name="multiplicity" label="Multiplicity" />
      <TextField name="J" label="J in Hz" />
      <ChoiceField
        name="owner"
        label="Whose it is"
        options={[NOBODY, ...owners.map(({ value, words }): Option => [value, words])]}
      />
      {owner?.named !== undefined && (
        <TextField name="of" label={owner.to === 'isomer' ? 'Which isomer' : 'Its name'} />
      )}
      {owner !== undefined && <NumberField name="hydrogens" label="Hydrogens it stands for" />}
    </div>
  );
}

function Fields({ world }: { readonly world: FormWorld }) {
  const { subjects } = world;
  const reading = signalsIn(world);
  const count = reading?.ok === true ? reading.signals.length : 0;
  return (
    <>
      <FileFindings
        world={world}
        trace={reading?.ok === false ? undefined : traceOf(world, 'nmr')}
        further={reading?.ok === false ? [reading.problem] : []}
        filled={count === 1 ? 'one signal' : `${count} signals`}
      />
      <Line>
        <ChoiceField name="solvent" label="Deuterated solvent" options={SOLVENTS} />
        <NumberField name="frequency_MHz" label="Spectrometer, ¹H" unit="MHz" />
      </Line>
      <RowsField name="signals" label="Signals" each="Signal" addText="Add a signal">
        <SignalFields owners={ownersOf(subjects)} />
      </RowsField>
      <StandardFields subjects={subjects} />
      <Seldom summary="How well the integrals are known" fields={['integralU_percent']}>
        <NumberField
          name="integralU_percent"
          label="Relative standard uncertainty of an integral"
          unit="%"
        />
      </Seldom>
    </>
  );
}

function begin(world: FormWorld, sign: '.' | ',' = '.'): Draft {
  const reading = signalsIn(world);
  if (reading?.ok !== true) return { signals: [{}] };
  const { solvent, frequency_MHz, signals } = reading;
  // As a spectrum is read: from the left, the high shifts first.
  const fromLeft = signals
    .toSorted((a, b) => middleOf(b) - middleOf(a))
    .slice(0, MOST_SIGNALS)
    .map((signal) => signalDraft(signal, sign));
  return {
    solvent,
    ...(frequency_MHz !== undefined && { frequency_MHz: typed(frequency_MHz, 6, sign) }),
    signals: fromLeft.length > 0 ? fromLeft : [{}],
  };
}

function build(reader: DraftReader, world: FormWorld) {
  const { subjects } = world;
  const rows = filledRows(reader, 'signals', [
    'shift',
    'multiplicity',
    'J',
    'integral',
    'owner',
    'hydrogens',
  ]);
  if (rows.length === 0) reader.say('signals', 'At least one signal is needed.');
  if (rows.length > MOST_SIGNALS) reader.say('signals', `At most ${MOST_SIGNALS} signals.`);
  const entered: Open<NmrEntered> = {
    technique: 'nmr',
    solvent: readChoice(reader, 'solvent', NMR_SOLVENTS),
    frequency_MHz: reader.number('frequency_MHz', 20, 1500),
    signals: rows.map((row) => ({
      ...readShift(row),
      multiplicity: readPattern(row),
      J_Hz: readCouplings(row),
      integral: row.number('integral', 0, 1e12),
      assignment: readOwner(row, subjects),
    })),
    ...readStandard(reader, subjects),
    integralU_percent: positive(reader, 'integralU_percent', 50),
    file: fileNameOf(world, traceOf(world, 'nmr')),
  };
  return built(reader, entered);
}

/** A ¹H spectrum: its signals, and what was weighed into the tube. */
export const nmrForm: EvidenceForm = {
  technique: 'nmr',
  begin,
  fields: (world) => <Fields world={world} />,
  build,
};
