import type {
  ThinLayerEntered,
  ThinLayerMeasure,
  Visualisation,
} from '../../../../core/evidence/thin-layer/schema.ts';
import type { Subjects } from '../../../../core/evidence/subject.ts';
import { Button } from '../../../ui/button.tsx';
import { ChoiceOrOther, readChoiceOrOther } from '../choice-or-other.tsx';
import { readDraft, useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { ChoiceField, FlagField, NumberField, RowsField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import { Line, Seldom } from '../layout.tsx';
import { filledRows } from '../rows.ts';
import { substanceOptions } from '../substances.ts';
import { chosenLane, laneChoices, optionsOf } from './lane-choice.ts';
import { RULER_mm, rfIn } from './measure.ts';
import { pointIn } from './points.ts';
import { SeenFields, readSeen } from './ways.tsx';

type Lanes = Open<ThinLayerEntered['lanes']>;
type Spot = Lanes[number]['spots'][number];

const STRENGTHS = ['strong', 'medium', 'faint'] as const;
const STRENGTH_OPTIONS: readonly Option[] = [
  ['', 'not told'],
  ...STRENGTHS.map((one): Option => [one, one]),
];

const itself = (subjects: Subjects) => ({
  name: 'substance',
  options: [['', 'not known'] as Option, ...substanceOptions(subjects)],
});

/** What every lane and spot is shown with. */
interface PlateShown {
  readonly subjects: Subjects;
  readonly by: ThinLayerMeasure['by'];
  readonly measure: ThinLayerMeasure | undefined;
  readonly ways: readonly Visualisation[];
  /** Takes up a point of the picture, to move it with the arrow keys. */
  readonly onMove: (id: string) => void;
}

/** The samples on the start line, from the left, each with its spots. */
export function LaneFields(shown: PlateShown) {
  return (
    <RowsField name="lanes" label="Lanes, from the left" each="Lane" addText="Add a lane">
      <LaneRow {...shown} />
    </RowsField>
  );
}

function LaneRow(shown: PlateShown) {
  const { draft, sign } = useForm();
  const choices = laneChoices(shown.subjects);
  const { isNamed } = chosenLane(choices, draft['what']);
  const isRuler = shown.by === 'ruler';
  const front_mm = readDraft(draft, sign).number('front_mm', ...RULER_mm);
  return (
    <div className="thin-layer-lane">
      <ChoiceField name="what" label="What is on it" options={optionsOf(choices)} />
      {isNamed === true && <TextField name="whatOther" label="Its name" />}
      <RowsField
        name="spots"
        label={isRuler ? 'Spots' : 'Spots, as tapped on the picture'}
        each="Spot"
        {...(isRuler && { addText: 'Add a spot' })}
      >
        <SpotRow {...shown} front_mm={front_mm} />
      </RowsField>
      {isRuler && (
        <Seldom summary="The front stands elsewhere in this lane" fields={['front_mm']}>
          <NumberField name="front_mm" label="Solvent front in this lane" unit="mm" />
        </Seldom>
      )}
    </div>
  );
}

function SpotRow({
  subjects,
  by,
  measure,
  ways,
  front_mm,
  onMove,
}: PlateShown & { readonly front_mm: number | undefined }) {
  const { draft, sign } = useForm();
  const { id } = draft;
  return (
    <div className="thin-layer-spot">
      <Line>
        {by === 'ruler' && <NumberField name="position_mm" label="Middle of the spot" unit="mm" />}
        <output className="thin-layer-rf">{rfIn(draft, measure, front_mm, sign)}</output>
        <ChoiceField name="intensity" label="Strength" options={STRENGTH_OPTIONS} />
        {by === 'photograph' && typeof id === 'string' && (
          <Button rank="plain" onClick={() => onMove(id)}>
            Move it
          </Button>
        )}
      </Line>
      <SeenFields ways={ways} />
      <Seldom summary="More of this spot" fields={['colour', 'substanceOther']}>
        <FlagField name="tailing" label="It has a tail" />
        <Line>
          <TextField name="colour" label="Colour" />
          <ChoiceOrOther
            {...itself(subjects)}
            label="Who it may be"
            other="another substance"
            otherLabel="Its name"
          />
        </Line>
      </Seldom>
    </div>
  );
}

function readSpot(
  spot: DraftReader,
  subjects: Subjects,
  by: ThinLayerMeasure['by'],
  ways: readonly Visualisation[],
): Spot {
  const strength = spot.text('intensity');
  return {
    ...(by === 'ruler'
      ? { position_mm: spot.need('position_mm', ...RULER_mm) }
      : { point: pointIn(spot.text('point')) }),
    seenBy: readSeen(spot, ways),
    intensity: STRENGTHS.find((one) => one === strength),
    tailing: spot.flag('tailing'),
    colour: spot.text('colour', 100),
    substance: readChoiceOrOther(spot, itself(subjects)),
  };
}

const RULER_FIELDS = ['position_mm', 'intensity', 'colour', 'substance'];

export function readLanes(
  reader: DraftReader,
  subjects: Subjects,
  by: ThinLayerMeasure['by'],
  ways: readonly Visualisation[],
): Lanes {
  const choices = laneChoices(subjects);
  const rows = reader.rows('lanes');
  if (rows.length === 0) reader.say('lanes', 'At least one lane is needed.');
  if (rows.length > 20) reader.say('lanes', 'At most 20 lanes.');
  return rows.map((row) => {
    const { lane, isNamed } = chosenLane(choices, row.text('what', Infinity));
    const spots = filledRows(row, 'spots', by === 'ruler' ? RULER_FIELDS : ['point']);
    if (spots.length > 20) row.say('spots', 'At most 20 spots.');
    return {
      ...lane,
      ...(isNamed === true && { substance: row.text('whatOther') }),
      front_mm: by === 'ruler' ? row.number('front_mm', ...RULER_mm) : undefined,
      spots: spots.map((spot) => readSpot(spot, subjects, by, ways)),
    };
  });
}
