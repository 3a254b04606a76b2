import type { Point, SetPoint } from './points.ts';

/** What was set, drawn over the picture in its own pixels. */
export function PlateMarks({
  width,
  height,
  points,
  taken,
  cursor,
}: {
  readonly width: number;
  readonly height: number;
  readonly points: readonly SetPoint[];
  /** The id of the point that is taken up. */
  readonly taken: string | undefined;
  readonly cursor: Point | undefined;
}) {
  const long = Math.max(width, height);
  const at = (id: string): Point | undefined => points.find((one) => one.id === id)?.point;
  const [a, b, front, second] = [at('startA'), at('startB'), at('frontA'), at('frontB')];
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="none"
      aria-hidden="true"
      className="thin-layer-marks"
    >
      {a !== undefined && b !== undefined && <Ruled from={a} to={b} long={long} />}
      {front !== undefined && second !== undefined && (
        <Ruled from={front} to={second} long={long} />
      )}
      {front !== undefined && second === undefined && a !== undefined && b !== undefined && (
        <Ruled from={front} to={[front[0] + b[0] - a[0], front[1] + b[1] - a[1]]} long={long} />
      )}
      {points.map(({ id, point: [x, y], lane }) => (
        <g key={id} data-taken={id === taken || undefined}>
          <circle cx={x} cy={y} r={long * (lane === undefined ? 0.006 : 0.016)} />
          {lane !== undefined && (
            <text x={x + long * 0.022} y={y + long * 0.01} fontSize={long * 0.034}>
              {lane + 1}
            </text>
          )}
        </g>
      ))}
      {cursor !== undefined && taken === undefined && (
        <path
          className="thin-layer-crosshair"
          d={`M${cursor[0] - long / 30} ${cursor[1]}h${long / 15}M${cursor[0]} ${cursor[1] - long / 30}v${long / 15}`}
        />
      )}
    </svg>
  );
}

/** A line through two points, from edge to edge. */
function Ruled({
  from: [x, y],
  to: [u, v],
  long,
}: {
  readonly from: Point;
  readonly to: Point;
  readonly long: number;
}) {
  const length = Math.hypot(u - x, v - y) || 1;
  const [dx, dy] = [((u - x) / length) * 2 * long, ((v - y) / length) * 2 * long];
  return <line x1={x - dx} y1={y - dy} x2={x + dx} y2={y + dy} />;
}
