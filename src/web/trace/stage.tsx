import { memo, useLayoutEffect, useRef, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { definitions, surroundings } from '../../picture/spectrum/draw.ts';
import { PAGE } from '../../picture/spectrum/colours.ts';
import type { Layout } from '../../picture/spectrum/layout.ts';
import { valueAt } from '../../picture/spectrum/series.ts';
import type { Stroke } from '../../picture/spectrum/strokes.ts';
import { hitAt } from './hit.ts';
import type { Hit } from './hit.ts';
import { actOfKey } from './instrument.ts';
import type { Act, Look } from './instrument.ts';
import { coloursAt, paintCurves } from './paint.ts';
import { useGestures } from './use-gestures.ts';
import { useThemeName } from './use-theme-name.ts';

export interface StageProps {
  readonly layout: Layout;
  readonly look: Look;
  readonly strokes: ReadonlyMap<string, Stroke>;
  readonly prefix: string;
  readonly range: { readonly low: number; readonly high: number };
  /** What is at the cursor, said. */
  readonly said: string;
  readonly describedBy: string;
  readonly act: (act: Act) => void;
  readonly choose: (hit: Hit) => void;
}

/** The picture that one can point at: its surroundings as SVG, its curves on a canvas over them. */
export function Stage(props: StageProps) {
  const { layout, look, strokes, prefix, range, said, describedBy, act, choose } = props;
  const place = useRef<HTMLDivElement>(null);
  const [over, setOver] = useState(false);
  const chosen = (x: number, y: number) => {
    const hit = hitAt(layout, x, y, 4);
    if (hit) choose(hit);
  };
  const gestures = useGestures(place, layout, act, chosen);
  const onKeyDown = (event: KeyboardEvent) => {
    const next = actOfKey(event);
    if (event.key === 'Enter' && look.cursor !== null) {
      const hit = underCursor(layout, look.cursor);
      if (hit) choose(hit);
    }
    if (next === undefined) return;
    event.preventDefault();
    act(next);
  };
  return (
    <div
      ref={place}
      className="trace-stage"
      data-over={over}
      role="slider"
      tabIndex={0}
      aria-label={`Cursor, ${layout.axis.title}`}
      aria-describedby={describedBy}
      aria-valuemin={range.low}
      aria-valuemax={range.high}
      aria-valuenow={Number((look.cursor ?? (range.low + range.high) / 2).toFixed(2))}
      aria-valuetext={said}
      onKeyDown={onKeyDown}
      {...gestures}
      onPointerMove={(event) => {
        gestures.onPointerMove(event);
        const box = event.currentTarget.getBoundingClientRect();
        setOver(hitAt(layout, event.clientX - box.left, event.clientY - box.top) !== undefined);
      }}
      onDoubleClick={() => act({ kind: 'zoom', factor: 2 })}
    >
      <Surroundings layout={layout} strokes={strokes} prefix={prefix} />
      <Curves layout={layout} strokes={strokes} />
      <Cursor layout={layout} at={look.cursor} />
    </div>
  );
}

function underCursor(layout: Layout, cursor: number): Hit | undefined {
  const x = layout.xOf(cursor);
  const band = layout.labels.find((label) => Math.abs(label.x - x) <= 3);
  if (band) return { kind: 'band', id: band.id };
  return hitAt(layout, x, (layout.plot.top + layout.plot.bottom) / 2);
}

interface Drawn {
  readonly layout: Layout;
  readonly strokes: ReadonlyMap<string, Stroke>;
}

/** All of its texts are escaped where they are drawn. */
const Surroundings = memo(function Surroundings({
  layout,
  strokes,
  prefix,
}: Drawn & { readonly prefix: string }) {
  const { width, height } = layout;
  const pen = { layout, strokes, prefix, colours: PAGE };
  return (
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      aria-hidden="true"
      focusable="false"
      dangerouslySetInnerHTML={{
        __html: `<defs>${definitions(pen)}</defs>${surroundings(pen)}`,
      }}
    />
  );
});

const Curves = memo(function Curves({ layout, strokes }: Drawn) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const theme = useThemeName();
  const colours = useRef<{ theme: string; roles: ReturnType<typeof coloursAt> }>(undefined);
  const { width, height } = layout;
  useLayoutEffect(() => {
    const element = canvas.current;
    const context = element?.getContext('2d');
    if (!element || !context) return;
    const density = Math.min(3, Math.max(1, window.devicePixelRatio || 1));
    // A canvas that is given its size anew, be it the same, is emptied and made again.
    const [wide, high] = [Math.round(width * density), Math.round(height * density)];
    if (element.width !== wide) element.width = wide;
    if (element.height !== high) element.height = high;
    if (colours.current?.theme !== theme) colours.current = { theme, roles: coloursAt(element) };
    paintCurves(context, layout, strokes, colours.current.roles, density);
  }, [layout, strokes, theme, width, height]);
  return <canvas ref={canvas} style={{ width, height }} aria-hidden="true" />;
});

/** A hairline, and a ring on every curve that it crosses. */
function Cursor({ layout, at }: { readonly layout: Layout; readonly at: number | null }) {
  const { width, height, plot, traces, series, axis, xOf, yOf } = layout;
  const x = at === null ? Number.NaN : xOf(at);
  if (!(x >= plot.left - 1 && x <= plot.right + 1)) return null;
  const rings = traces.flatMap(({ id }) => {
    const own = series.get(id);
    const y = own && !axis.sticks ? valueAt(own, at!) : undefined;
    return y === undefined ? [] : [{ id, y: yOf(y) }];
  });
  return (
    <svg
      className="trace-cursor"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      aria-hidden="true"
    >
      <path d={`M${x} ${plot.top}V${plot.bottom}`} />
      {rings
        .filter(({ y }) => y >= plot.top - 1 && y <= plot.bottom + 1)
        .map(({ id, y }) => (
          <circle key={id} cx={x} cy={y} r={4} />
        ))}
    </svg>
  );
}
