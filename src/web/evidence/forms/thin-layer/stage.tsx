import { useId, useState } from 'react';
import type { KeyboardEvent, MouseEvent, RefObject } from 'react';
import { Button } from '../../../ui/button.tsx';
import { PlateMarks } from './plate-marks.tsx';
import type { Point, SetPoint } from './points.ts';

/** Pixels of the picture. */
export interface Nudge {
  readonly right: number;
  readonly down: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const ARROWS: Readonly<Record<string, Nudge>> = {
  ArrowLeft: { right: -1, down: 0 },
  ArrowRight: { right: 1, down: 0 },
  ArrowUp: { right: 0, down: -1 },
  ArrowDown: { right: 0, down: 1 },
};

const ARROW_BUTTONS = [
  ['ArrowLeft', '←', 'Left'],
  ['ArrowUp', '↑', 'Up'],
  ['ArrowDown', '↓', 'Down'],
  ['ArrowRight', '→', 'Right'],
] as const;

/** With Shift an arrow key goes this much further. */
const FURTHER = 10;
/** A tap this near to a spot means that spot. Pixels of the screen. */
const NEAR_px = 8;

interface Staged {
  readonly ref: RefObject<HTMLDivElement | null>;
  readonly url: string;
  readonly points: readonly SetPoint[];
  readonly taken: SetPoint | undefined;
  /** Of the point that is taken up, where it is a spot. */
  readonly rf: string;
  readonly onPut: (point: Point, isByTap: boolean) => void;
  readonly onTake: (id: string) => void;
  readonly onNudge: (nudge: Nudge) => void;
  readonly onLetGo: () => void;
  readonly onTakeOut: () => void;
}

const within = (value: number, most: number): number => Math.min(Math.max(value, 0), most);

/** How many pixels of the picture lie under one of the screen; 1 until it is drawn. */
function scaleOf(element: Element, size: Size): number {
  const { width } = element.getBoundingClientRect();
  return width > 0 ? size.width / width : 1;
}

/** The picture: taps set points, and so do the arrow keys and Enter. */
export function Stage(staged: Staged) {
  const { ref, url, points, taken, onPut, onTake } = staged;
  const [size, setSize] = useState<Size>();
  const [cursor, setCursor] = useState<Point>();
  const [isBroken, setBroken] = useState(false);
  const id = useId();
  const onClick = (event: MouseEvent<HTMLDivElement>) => {
    if (size === undefined) return;
    const { left, top } = event.currentTarget.getBoundingClientRect();
    const scale = scaleOf(event.currentTarget, size);
    const at: Point = [(event.clientX - left) * scale, (event.clientY - top) * scale];
    const near = points.find(
      ({ point: [x, y], lane }) =>
        lane !== undefined && Math.hypot(x - at[0], y - at[1]) <= NEAR_px * scale,
    );
    setCursor(at);
    if (near === undefined) onPut(at, true);
    else onTake(near.id);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (size === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    const from: Point = cursor ?? [size.width / 2, size.height / 2];
    if (keyed(event, staged, from, size, setCursor)) event.preventDefault();
  };
  if (isBroken)
    return (
      <p className="wrong">
        This browser cannot show the picture. Save it as JPEG, and choose it again.
      </p>
    );
  return (
    <div className="thin-layer-stage">
      <div
        ref={ref}
        role="application"
        tabIndex={0}
        className="thin-layer-plate"
        aria-label="Plate"
        aria-describedby={`${id}-keys`}
        onClick={onClick}
        onKeyDown={onKeyDown}
      >
        <img
          src={url}
          alt=""
          draggable={false}
          onError={() => setBroken(true)}
          onLoad={({ currentTarget: { naturalWidth, naturalHeight } }) => {
            setBroken(false);
            setSize({ width: naturalWidth, height: naturalHeight });
          }}
        />
        {size !== undefined && (
          <PlateMarks {...size} points={points} taken={taken?.id} cursor={cursor} />
        )}
      </div>
      <p id={`${id}-keys`} className="aid">
        With keys: arrows move the crosshair, Enter sets a point. With Shift they go ten times as
        far.
      </p>
      <p role="status">{saidOf(staged, cursor)}</p>
      {taken !== undefined && size !== undefined && <Nudging {...staged} size={size} />}
    </div>
  );
}

/** Whether the key meant something here. */
function keyed(
  { key, shiftKey, currentTarget }: KeyboardEvent<HTMLDivElement>,
  { taken, onPut, onNudge, onLetGo, onTakeOut }: Staged,
  from: Point,
  size: Size,
  setCursor: (point: Point) => void,
): boolean {
  const arrow = ARROWS[key];
  if (arrow !== undefined) {
    const step = scaleOf(currentTarget, size) * (shiftKey ? FURTHER : 1);
    const nudge = { right: arrow.right * step, down: arrow.down * step };
    if (taken !== undefined) onNudge(nudge);
    else
      setCursor([
        within(from[0] + nudge.right, size.width),
        within(from[1] + nudge.down, size.height),
      ]);
    return true;
  }
  if (key === 'Enter' || key === ' ') {
    if (taken === undefined) {
      setCursor(from);
      onPut(from, false);
    } else {
      setCursor(taken.point);
      onLetGo();
    }
    return true;
  }
  if (taken === undefined) return false;
  if (key === 'Delete' || key === 'Backspace') onTakeOut();
  else if (key === 'Escape') onLetGo();
  else return false;
  return true;
}

const placeText = ([x, y]: Point): string => `${Math.round(x)} across, ${Math.round(y)} down`;

function saidOf({ taken, rf }: Staged, cursor: Point | undefined): string {
  if (taken !== undefined)
    return `${taken.label}: ${placeText(taken.point)}.${rf === '' ? '' : ` ${rf}`}`;
  return cursor === undefined ? '' : `Crosshair: ${placeText(cursor)}.`;
}

/** The arrow keys of those who have none. */
function Nudging({
  ref,
  taken,
  onNudge,
  onLetGo,
  onTakeOut,
  size,
}: Staged & { readonly size: Size }) {
  const nudge = ({ right, down }: Nudge) => {
    const step = ref.current === null ? 1 : scaleOf(ref.current, size);
    onNudge({ right: right * step, down: down * step });
  };
  return (
    <div className="row-of-buttons" role="group" aria-label={`Move ${taken?.label ?? ''}`}>
      {ARROW_BUTTONS.map(([key, sign, words]) => (
        <Button key={key} aria-label={words} onClick={() => nudge(ARROWS[key]!)}>
          {sign}
        </Button>
      ))}
      <Button rank="plain" onClick={onLetGo}>
        Let go
      </Button>
      <Button rank="plain" onClick={onTakeOut}>
        Take out
      </Button>
    </div>
  );
}
