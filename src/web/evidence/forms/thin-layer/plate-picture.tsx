import { useEffect, useId, useState } from 'react';
import type { RefObject } from 'react';
import { photoOf } from '../../../bench/photo/shrink.ts';
import { Button } from '../../../ui/button.tsx';
import { useForm } from '../draft.ts';
import { FlagField, NumberField } from '../fields.tsx';
import { Seldom } from '../layout.tsx';
import type { LaneChoice } from './lane-choice.ts';
import { chosenLane } from './lane-choice.ts';
import { measureIn, rfIn } from './measure.ts';
import {
  PLACES,
  PLACE_WORDS,
  lanesIn,
  movedTo,
  nextAim,
  pointText,
  pointsIn,
  setAt,
} from './points.ts';
import type { Aim, Change, Point } from './points.ts';
import { Stage } from './stage.tsx';
import type { Nudge } from './stage.tsx';

/** The point that was taken up. `isCarried`: the next tap brings it there. */
export interface Held {
  readonly id: string;
  readonly isCarried: boolean;
}

interface Picturing {
  /** The picture as a place for the keyboard. */
  readonly stage: RefObject<HTMLDivElement | null>;
  readonly held: Held | undefined;
  readonly onHold: (held: Held | undefined) => void;
  /** What lanes may be, to name them. */
  readonly choices: readonly LaneChoice[];
}

/** A photograph of the plate, on which start line, front and spots are tapped. */
export function PlatePicture(picturing: Picturing) {
  const { draft } = useForm();
  const { photo } = draft;
  const url = useObjectUrl(photo instanceof File ? photo : undefined);
  return (
    <section className="thin-layer-picture" aria-label="Picture of the plate">
      <PictureFile />
      {url !== undefined && <Marking {...picturing} url={url} />}
    </section>
  );
}

function useObjectUrl(file: File | undefined): string | undefined {
  const [url, setUrl] = useState<string>();
  useEffect(() => {
    if (file === undefined) return undefined;
    const made = URL.createObjectURL(file);
    setUrl(made);
    return () => {
      setUrl(undefined);
      URL.revokeObjectURL(made);
    };
  }, [file]);
  return url;
}

function PictureFile() {
  const { set, problems } = useForm();
  const id = useId();
  const problem = problems['photo'];
  // Made smaller before anything is tapped: points hold for the very picture that may be kept.
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const { bytes, mediaType } = await photoOf(file);
    set('photo', new File([bytes], file.name, { type: mediaType }));
  };
  return (
    <div className="field evidence-field">
      <label htmlFor={id}>Picture</label>
      <input
        id={id}
        type="file"
        accept="image/*"
        aria-invalid={problem === undefined ? undefined : true}
        aria-describedby={`${id}-aid`}
        onChange={({ target }) => void take(target.files?.[0])}
      />
      <span id={`${id}-aid`} className={problem === undefined ? 'aid' : 'wrong'}>
        {problem ?? 'Taken from straight above. It stays on this device unless it is kept.'}
      </span>
    </div>
  );
}

function Marking({ stage, held, onHold, choices, url }: Picturing & { readonly url: string }) {
  const { draft, set, sign } = useForm();
  const [aim, setAim] = useState<Aim>('startA');
  const points = pointsIn(draft);
  const taken = points.find(({ id }) => id === held?.id);
  const apply = ([field, value]: Change) => set(field, value);
  const put = (point: Point, isByTap: boolean) => {
    if (held?.isCarried === true && taken !== undefined) {
      apply(movedTo(draft, taken.id, point));
      onHold({ id: taken.id, isCarried: false });
      return;
    }
    const { change, id } = setAt(draft, aim, point);
    apply(change);
    // With the keyboard the crosshair goes on; after a tap the arrow keys mend the point itself.
    onHold(isByTap ? { id, isCarried: false } : undefined);
    setAim(nextAim({ ...draft, [change[0]]: change[1] }, aim));
  };
  const onNudge = ({ right, down }: Nudge) => {
    if (taken === undefined) return;
    const [x, y] = taken.point;
    apply(movedTo(draft, taken.id, [x + right, y + down]));
  };
  const onTakeOut = () => {
    if (taken !== undefined) apply(movedTo(draft, taken.id, undefined));
    onHold(undefined);
  };
  const rf =
    taken?.lane === undefined
      ? ''
      : rfIn({ point: pointText(taken.point) }, measureIn(draft, sign), undefined, sign);
  return (
    <>
      <AimChoice aim={aim} onAim={setAim} choices={choices} />
      <div className="thin-layer-side">
        <Stage
          ref={stage}
          url={url}
          points={points}
          taken={taken}
          rf={rf}
          onPut={put}
          onTake={(id) => onHold({ id, isCarried: false })}
          onNudge={onNudge}
          onLetGo={() => onHold(undefined)}
          onTakeOut={onTakeOut}
        />
        <Places onHold={onHold} stage={stage} />
      </div>
    </>
  );
}

/** What the next tap, or Enter, sets. */
function AimChoice({
  aim,
  onAim,
  choices,
}: {
  readonly aim: Aim;
  readonly onAim: (aim: Aim) => void;
  readonly choices: readonly LaneChoice[];
}) {
  const { draft, problems } = useForm();
  const id = useId();
  const lanes = lanesIn(draft).map(
    (lane, l) => [l, `Lane ${l + 1}: ${chosenLane(choices, lane['what']).words}`] as const,
  );
  const places = PLACES.map((place) => [place, PLACE_WORDS[place]] as const);
  const problem = problems['points'];
  return (
    <div
      role="radiogroup"
      tabIndex={-1}
      className="thin-layer-aim"
      aria-labelledby={id}
      aria-invalid={problem === undefined ? undefined : true}
    >
      <p id={id} className="label">
        The next tap sets
      </p>
      {[...places, ...lanes].map(([value, words]) => (
        <label key={value} className="evidence-flag">
          <input type="radio" name={id} checked={aim === value} onChange={() => onAim(value)} />
          {words}
        </label>
      ))}
      {problem !== undefined && <p className="wrong">{problem}</p>}
    </div>
  );
}

/** The points that a plate has once; spots are listed with their lanes. */
function Places({ onHold, stage }: Pick<Picturing, 'onHold' | 'stage'>) {
  const { draft, set } = useForm();
  const places = pointsIn(draft).filter(({ lane }) => lane === undefined);
  return (
    <div className="thin-layer-places">
      {places.length > 0 && (
        <ul aria-label="Points of the plate">
          {places.map(({ id, label, point }) => (
            <li key={id}>
              {label}: {point.map((value) => Math.round(value)).join(', ')}
              <Button
                rank="plain"
                onClick={() => {
                  onHold({ id, isCarried: true });
                  stage.current?.focus();
                }}
              >
                Move it<span className="spoken">: {label}</span>
              </Button>
              <Button
                rank="plain"
                onClick={() => {
                  set(...movedTo(draft, id, undefined));
                  stage.current?.focus();
                }}
              >
                Take out<span className="spoken">: {label}</span>
              </Button>
            </li>
          ))}
        </ul>
      )}
      <FlagField name="keepPhoto" label="Keep the picture with the record" />
      <Seldom summary="Scale of the picture" fields={['run_mm']}>
        <NumberField
          name="run_mm"
          label="Start line to front, on the plate itself"
          unit="mm"
          aid="Tells how well a tap hits. Empty: 50 mm is taken."
        />
      </Seldom>
    </div>
  );
}
