import { memo, useRef } from 'react';
import type { KeyboardEvent, PointerEvent } from 'react';
import { AXES, HEIGHTS } from '../../picture/spectrum/axis.ts';
import { curveIn } from '../../picture/spectrum/curve.ts';
import type { Series } from '../../picture/spectrum/series.ts';
import type { SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import { stretchWords, withUnit } from '../../picture/spectrum/words.ts';
import { stretchOf, valuesIn } from '../../picture/spectrum/x-scale.ts';
import type { Stretch } from '../../picture/spectrum/x-scale.ts';
import { yRangeOf } from '../../picture/spectrum/y-range.ts';
import { scaleOf } from './instrument.ts';
import type { Act, Look } from './instrument.ts';

const HEIGHT = 44;

/** The whole range in small with what is seen of it marked: two grips, and the middle to drag. */
export function Overview({
  view,
  series,
  look,
  plot,
  decimal,
  act,
}: {
  readonly view: SpectrumView;
  readonly series: Series | undefined;
  readonly look: Look;
  /** Edges of the plot above, so that the two line up. */
  readonly plot: { readonly left: number; readonly right: number };
  readonly decimal: '.' | ',';
  readonly act: (act: Act) => void;
}) {
  const scale = scaleOf(view, look);
  const whole = stretchOf(scale, view.range);
  const axis = AXES[view.axis ?? 'wavenumber'];
  const width = plot.right - plot.left;
  const pxOf = (place: number) => ((place - whole.from) / (whole.to - whole.from)) * width;
  const [left, right] = [pxOf(look.stretch.from), pxOf(look.stretch.to)];
  const perPx = (whole.to - whole.from) / width;
  const [low, high] = valuesIn(scale, look.stretch);
  const grip = (edge: 'from' | 'to') => ({
    edge,
    at: look.stretch[edge],
    x: edge === 'from' ? left : right,
    said: withUnit(scale.valueAt(look.stretch[edge]), axis, decimal),
    whole,
    perPx,
    act,
  });
  return (
    <div
      className="trace-overview"
      role="group"
      aria-label={`Part shown: ${stretchWords({ low, high }, axis, decimal)}`}
      style={{ marginLeft: plot.left, width, height: HEIGHT }}
    >
      <Small view={view} series={series} look={look} width={width} />
      <span className="outside" style={{ left: 0, width: left }} />
      <span className="outside" style={{ left: right, width: Math.max(0, width - right) }} />
      <Middle left={left} right={right} perPx={perPx} act={act} />
      <Grip {...grip('from')} />
      <Grip {...grip('to')} />
    </div>
  );
}

interface SmallProps {
  readonly view: SpectrumView;
  readonly series: Series | undefined;
  readonly look: Pick<Look, 'scale' | 'yAxis'>;
  readonly width: number;
}

/** It stays as it is while one pans. */
const Small = memo(
  function Small({ view, series, look, width }: SmallProps) {
    if (series === undefined || width < 1) return null;
    const axis = AXES[view.axis ?? 'wavenumber'];
    const heights = HEIGHTS[look.yAxis];
    const scale = scaleOf(view, look);
    const whole = stretchOf(scale, view.range);
    const { low, high } = yRangeOf([series], heights);
    const perPx = (whole.to - whole.from) / width;
    const line = curveIn(series, {
      left: 0,
      width,
      falls: axis.falls,
      density: 0.5,
      xOf: (x) => (scale.placeOf(x) - whole.from) / perPx,
      valueAt: (px) => scale.valueAt(whole.from + px * perPx),
      yOf: (y) => 3 + (HEIGHT - 6) * (1 - (heights.of(y) - low) / (high - low || 1)),
    });
    return (
      <svg width={width} height={HEIGHT} aria-hidden="true">
        <path d={pathOf(line)} />
      </svg>
    );
  },
  (before, after) =>
    before.view === after.view &&
    before.series === after.series &&
    before.width === after.width &&
    before.look.scale === after.look.scale &&
    before.look.yAxis === after.look.yAxis,
);

function pathOf(line: Float64Array): string {
  const parts: string[] = [];
  let letter = 'M';
  for (let i = 0; i < line.length; i += 2) {
    if (Number.isNaN(line[i]!)) letter = 'M';
    else {
      const y = Math.min(HEIGHT, Math.max(0, line[i + 1]!));
      parts.push(`${letter}${line[i]!.toFixed(1)} ${y.toFixed(1)}`);
      letter = 'L';
    }
  }
  return parts.join('');
}

/** Where a drag stands, kept from one move to the next. */
function useDrag(moved: (px: number) => void) {
  const last = useRef<number>(undefined);
  const end = () => {
    last.current = undefined;
  };
  return {
    onPointerDown: (event: PointerEvent) => {
      last.current = event.clientX;
      event.currentTarget.setPointerCapture?.(event.pointerId);
    },
    onPointerMove: (event: PointerEvent) => {
      if (last.current === undefined) return;
      moved(event.clientX - last.current);
      last.current = event.clientX;
    },
    onPointerUp: end,
    onPointerCancel: end,
  };
}

function Middle({
  left,
  right,
  perPx,
  act,
}: {
  readonly left: number;
  readonly right: number;
  readonly perPx: number;
  readonly act: (act: Act) => void;
}) {
  const drag = useDrag((px) => act({ kind: 'pan', by: px * perPx }));
  return <span className="middle" style={{ left, width: right - left }} {...drag} />;
}

function Grip({
  edge,
  at,
  x,
  said,
  whole,
  perPx,
  act,
}: {
  readonly edge: 'from' | 'to';
  readonly at: number;
  readonly x: number;
  readonly said: string;
  readonly whole: Stretch;
  readonly perPx: number;
  readonly act: (act: Act) => void;
}) {
  // Where the pointer is, which may be beyond where the grip can go.
  const aim = useRef(at);
  const drag = useDrag((px) => {
    aim.current += px * perPx;
    act({ kind: 'edge', edge, place: aim.current });
  });
  const step = (whole.to - whole.from) / 50;
  const onKeyDown = (event: KeyboardEvent) => {
    const place = { ArrowLeft: at - step, ArrowRight: at + step, Home: whole.from, End: whole.to }[
      event.key
    ];
    if (place === undefined) return;
    event.preventDefault();
    act({ kind: 'edge', edge, place });
  };
  return (
    <span
      className="grip"
      data-edge={edge}
      role="slider"
      tabIndex={0}
      aria-label={edge === 'from' ? 'Left edge' : 'Right edge'}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round((100 * (at - whole.from)) / (whole.to - whole.from))}
      aria-valuetext={said}
      style={{ left: x }}
      onKeyDown={onKeyDown}
      {...drag}
      onPointerDown={(event) => {
        aim.current = at;
        drag.onPointerDown(event);
      }}
    />
  );
}
