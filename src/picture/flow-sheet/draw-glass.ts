import { px } from '../../structures/svg.ts';
import type { FlowState } from '../../core/report/flow/flow.ts';
import { layersOf, roomOf } from './glass.ts';
import type { Glass } from './glass.ts';
import { heightOf, wallBetween } from './profile.ts';
import { STOPPER } from './shapes.ts';
import type { Fitting } from './shapes.ts';
import type { Paint } from './paint.ts';
import type { DrawnPhase } from './theme.ts';

export interface Place {
  readonly x: number;
  /** Where the glass stands, its stem or foot counted. */
  readonly bottom: number;
}

type Pen = (x: number, z: number) => string;

/** A vessel with what is in it: the layers to scale, and over them the glass. */
export function drawGlass(
  state: FlowState,
  glass: Glass,
  { x, bottom }: Place,
  paint: Paint,
  prefix: string,
): string {
  const { unit_px, shape } = glass;
  const floor = bottom - glass.below_px;
  const pen: Pen = (r, z) => `${px(x + r * unit_px)} ${px(floor - z * unit_px)}`;
  const room = roomOf(shape);
  const wall = wallBetween(room, 0, heightOf(room));
  const left = [...wall].reverse().map(({ r, z }) => pen(-r, z));
  const right = wall.map(({ r, z }) => pen(r, z));
  const outline = `M${[...left, ...right].join('L')}`;
  const layers = layersOf(state, glass);
  const fills = layers.map(({ phase, from, to }) => {
    const side = wallBetween(room, from, to);
    const up = side.map(({ r, z }) => pen(r, z));
    const down = [...side].reverse().map(({ r, z }) => pen(-r, z));
    const top = side.at(-1)!;
    return (
      `<path d="M${[...up, ...down].join('L')}Z" fill="url(#${prefix}-${phase})"/>` +
      `<path d="M${pen(-top.r, to)}L${pen(top.r, to)}" stroke-width=".8"/>`
    );
  });
  const broken = glass.toScale ? '' : ' stroke-dasharray="3 2.2"';
  return (
    `<g ${paint.colour({ stroke: 'ink' })} stroke-linejoin="round" stroke-linecap="round">` +
    `<path d="${outline}Z" ${paint.colour({ fill: 'glass' })} stroke="none"/>${fills.join('')}` +
    `<path d="${outline}" fill="none" stroke-width="1.35"${broken}/>` +
    `<g fill="none" stroke-width="1.2">${shape.fittings.map((one) => drawFitting(one, pen, paint)).join('')}</g></g>`
  );
}

const DRAWN: {
  readonly [K in Fitting['kind']]: (
    fitting: Extract<Fitting, { readonly kind: K }>,
    pen: Pen,
    paint: Paint,
  ) => string;
} = {
  piece: ({ points }, pen, { colour }) =>
    `<path ${colour({ fill: 'glass' })} d="M${points.map(([x, z]) => pen(x, z)).join('L')}Z"/>`,
  line: ({ points }, pen) => `<path d="M${points.map(([x, z]) => pen(x, z)).join('L')}"/>`,
  stopper: ({ z, width }, pen) =>
    `<path fill="currentColor" d="M${pen(-width, z + STOPPER)}L${pen(width, z + STOPPER)}` +
    `L${pen(width * 0.75, z)}L${pen(-width * 0.75, z)}Z"/>`,
  tap: ({ z }, pen) => `<path stroke-width="2.6" d="M${pen(-0.24, z)}L${pen(0.34, z)}"/>`,
};

const drawFitting = (fitting: Fitting, pen: Pen, paint: Paint) =>
  (DRAWN[fitting.kind] as (f: Fitting, pen: Pen, paint: Paint) => string)(fitting, pen, paint);

/** Pattern first and tint second, so that a phase is known in black on white too. */
export function patterns({ colour }: Paint, prefix: string): string {
  const swatch = (phase: DrawnPhase, size: number, marks: string) =>
    `<pattern id="${prefix}-${phase}" width="${size}" height="${size}" patternUnits="userSpaceOnUse">` +
    `<rect width="${size}" height="${size}" ${colour({ fill: `tint-${phase}` })}/>${marks}</pattern>`;
  const stroke = (phase: DrawnPhase, d: string) =>
    `<path d="${d}" fill="none" ${colour({ stroke: `line-${phase}` })} stroke-width=".8"/>`;
  const dot = (at: number) =>
    `<circle cx="${at}" cy="${at}" r=".62" ${colour({ fill: 'line-solid' })}/>`;
  return (
    swatch('organic', 5, stroke('organic', 'M-1 6L6 -1M-1 1L1 -1M4 6L6 4')) +
    swatch('aqueous', 4, stroke('aqueous', 'M0 2H4')) +
    swatch('solid', 3.6, dot(0.9) + dot(2.7))
  );
}
