import { useRef, useState } from 'react';
import type {
  StationaryPhase,
  ThinLayerEntered,
} from '../../../../core/evidence/thin-layer/schema.ts';
import { built, useForm } from '../draft.ts';
import type { Built, DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm, FormWorld } from '../form.ts';
import { Line, Seldom } from '../layout.tsx';
import { readChoice } from '../read.ts';
import { laneChoices } from './lane-choice.ts';
import { LaneFields, readLanes } from './lanes.tsx';
import { measureIn, readMeasure } from './measure.ts';
import { PlatePicture } from './plate-picture.tsx';
import { readWays, WaysFields, waysIn } from './ways.tsx';
import type { Held } from './plate-picture.tsx';
import './thin-layer.css';

const PHASES: Readonly<Record<StationaryPhase, string>> = {
  silica: 'silica',
  alumina: 'alumina',
  reversedPhase: 'reversed phase (C18)',
  cellulose: 'cellulose',
  other: 'another',
};

function Fields({ world: { subjects } }: { readonly world: FormWorld }) {
  const { draft, sign } = useForm();
  const [held, setHeld] = useState<Held>();
  const picture = useRef<HTMLDivElement>(null);
  const by = draft['by'] === 'photograph' ? 'photograph' : 'ruler';
  const onMove = (id: string) => {
    setHeld({ id, isCarried: true });
    picture.current?.focus();
  };
  return (
    <div className="thin-layer">
      <Line>
        <ChoiceField
          name="stationaryPhase"
          label="Plate"
          options={Object.entries(PHASES).map(([phase, words]): Option => [phase, words])}
        />
        <TextField name="eluent" label="Eluent" aid="With its proportions by volume." />
      </Line>
      <WaysFields />
      <ChoiceField
        name="by"
        label="Measured"
        options={[
          ['ruler', 'with a ruler'],
          ['photograph', 'on a photograph'],
        ]}
      />
      {by === 'ruler' ? (
        <Line>
          <NumberField name="start_mm" label="Start line" unit="mm" />
          <NumberField name="front_mm" label="Solvent front" unit="mm" />
        </Line>
      ) : (
        <PlatePicture
          stage={picture}
          held={held}
          onHold={setHeld}
          choices={laneChoices(subjects)}
        />
      )}
      <LaneFields
        subjects={subjects}
        by={by}
        measure={measureIn(draft, sign)}
        ways={waysIn(draft)}
        onMove={onMove}
      />
      <Seldom summary="Note">
        <TextField name="note" label="Note" />
      </Seldom>
    </div>
  );
}

function build(reader: DraftReader, { subjects }: FormWorld): Built {
  const ways = readWays(reader);
  const eluent = reader.text('eluent', 300);
  if (eluent === undefined) reader.say('eluent', 'This is needed.');
  const photo = reader.file('photo');
  const by = readChoice(reader, 'by', ['ruler', 'photograph']);
  if (by === 'photograph' && photo === undefined)
    reader.say('photo', 'A picture of the plate is needed.');
  const measure = readMeasure(reader);
  const lanes = readLanes(reader, subjects, by, ways);
  if (ways.length === 0 && lanes.some(({ spots }) => spots.length > 0))
    reader.say('ways', 'Say what showed the spots.');
  const entered: Open<ThinLayerEntered> = {
    technique: 'thinLayer',
    stationaryPhase: readChoice(reader, 'stationaryPhase', [
      'silica',
      'alumina',
      'reversedPhase',
      'cellulose',
      'other',
    ]),
    eluent: eluent ?? '',
    measure,
    visualisations: ways,
    lanes,
    note: reader.text('note', 2000),
  };
  const result = built(reader, entered);
  const isKept = by === 'photograph' && reader.flag('keepPhoto') === true;
  return result.ok && isKept && photo !== undefined ? { ...result, attach: photo } : result;
}

/** A developed plate, measured with a ruler or on a photograph. */
export const thinLayerForm: EvidenceForm = {
  technique: 'thinLayer',
  begin: ({ subjects }) => {
    const starting = laneChoices(subjects).find(({ lane }) => lane.kind === 'startingMaterial');
    return {
      lanes: [
        { what: starting?.value ?? 'product', spots: [] },
        { what: 'product', spots: [] },
      ],
    };
  },
  fields: (world) => <Fields world={world} />,
  build,
};
