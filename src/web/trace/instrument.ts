import { AXES } from '../../picture/spectrum/axis.ts';
import type { BandShown, HeightKind, SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import { stretchOf, valuesIn, xScale } from '../../picture/spectrum/x-scale.ts';
import type { ScaleKind, Stretch, XScale } from '../../picture/spectrum/x-scale.ts';
import { following, lookingAt, panned, withEdge, zoomedAbout } from './viewport.ts';

/** How one person looks at a trace now. */
export interface Look {
  readonly stretch: Stretch;
  readonly scale: ScaleKind;
  readonly yAxis: HeightKind;
  readonly fitHeight: boolean;
  readonly hidden: ReadonlySet<string>;
  /** In the unit of the axis; null where nobody points. */
  readonly cursor: number | null;
  /** The cursor goes to the nearest band. */
  readonly snaps: boolean;
}

export type Act =
  | { readonly kind: 'zoom'; readonly factor: number; readonly place?: number }
  | { readonly kind: 'pan'; readonly by: number }
  | { readonly kind: 'whole' }
  | { readonly kind: 'edge'; readonly edge: 'from' | 'to'; readonly place: number }
  | { readonly kind: 'see'; readonly low: number; readonly high: number }
  | { readonly kind: 'point'; readonly at: number | null; readonly snap?: boolean }
  /** A share of what is seen, to the right. */
  | { readonly kind: 'step'; readonly share: number }
  | { readonly kind: 'band'; readonly way: 1 | -1 }
  | { readonly kind: 'scale'; readonly scale: ScaleKind }
  | { readonly kind: 'height'; readonly yAxis: HeightKind }
  | { readonly kind: 'fit' }
  | { readonly kind: 'snaps' }
  | { readonly kind: 'trace'; readonly id: string };

export const scaleOf = (view: SpectrumView, look: Pick<Look, 'scale'>): XScale =>
  xScale(AXES[view.axis ?? 'wavenumber'], look.scale);

export function firstLook(view: SpectrumView): Look {
  const scale = 'split';
  return {
    stretch: stretchOf(scaleOf(view, { scale }), view.range),
    scale,
    yAxis: view.yAxis,
    fitHeight: false,
    hidden: new Set(),
    cursor: null,
    snaps: false,
  };
}

type Handlers = {
  readonly [K in Act['kind']]: (
    look: Look,
    act: Extract<Act, { readonly kind: K }>,
    view: SpectrumView,
  ) => Partial<Look>;
};

const wholeOf = (view: SpectrumView, look: Look) => stretchOf(scaleOf(view, look), view.range);

const HANDLERS: Handlers = {
  zoom: (look, { factor, place }, view) => {
    const { stretch, cursor } = look;
    const at = cursor === null ? undefined : scaleOf(view, look).placeOf(cursor);
    const seen = at !== undefined && at >= stretch.from && at <= stretch.to;
    const middle = (stretch.from + stretch.to) / 2;
    const about = place ?? (seen ? at : middle);
    return { stretch: zoomedAbout(stretch, wholeOf(view, look), factor, about) };
  },
  pan: (look, { by }, view) => ({ stretch: panned(look.stretch, wholeOf(view, look), by) }),
  whole: (look, _, view) => ({ stretch: wholeOf(view, look) }),
  edge: (look, { edge, place }, view) => ({
    stretch: withEdge(look.stretch, wholeOf(view, look), edge, place),
  }),
  see: (look, { low, high }, view) => ({
    stretch: lookingAt(stretchOf(scaleOf(view, look), { low, high }), wholeOf(view, look)),
  }),
  point: (look, { at, snap }, view) => {
    if (at === null) return { cursor: null };
    const { low, high } = view.range;
    const inside = Math.min(high, Math.max(low, at));
    return {
      cursor: (snap ?? look.snaps) ? (nearestBand(view, inside)?.position ?? inside) : inside,
    };
  },
  step: (look, { share }, view) => {
    const scale = scaleOf(view, look);
    const { from, to } = look.stretch;
    const start = look.cursor === null ? (from + to) / 2 : scale.placeOf(look.cursor);
    const moved = look.cursor === null ? start : start + share * (to - from);
    return pointedAt(look, view, scale.valueAt(moved));
  },
  band: (look, { way }, view) => {
    const scale = scaleOf(view, look);
    const places = view.bands.map(({ position }) => scale.placeOf(position)).sort((a, b) => a - b);
    const start = look.cursor === null ? undefined : scale.placeOf(look.cursor);
    const least = 1e-6 * Math.abs(look.stretch.to - look.stretch.from);
    const next =
      way > 0
        ? places.find((place) => start === undefined || place > start + least)
        : places.findLast((place) => start === undefined || place < start - least);
    return next === undefined ? {} : pointedAt(look, view, scale.valueAt(next));
  },
  scale: (look, { scale }, view) => {
    const [low, high] = valuesIn(scaleOf(view, look), look.stretch);
    const next = scaleOf(view, { scale });
    // What is closest in one scale may be closer than that in the other.
    const stretch = lookingAt(stretchOf(next, { low, high }), stretchOf(next, view.range));
    return { scale, stretch };
  },
  height: (_, { yAxis }) => ({ yAxis }),
  fit: ({ fitHeight }) => ({ fitHeight: !fitHeight }),
  snaps: ({ snaps }) => ({ snaps: !snaps }),
  trace: ({ hidden }, { id }) => {
    const next = new Set(hidden);
    if (!next.delete(id)) next.add(id);
    return { hidden: next };
  },
};

function pointedAt(look: Look, view: SpectrumView, at: number): Partial<Look> {
  const cursor = Math.min(view.range.high, Math.max(view.range.low, at));
  const whole = wholeOf(view, look);
  const place = scaleOf(view, look).placeOf(cursor);
  return { cursor, stretch: following(look.stretch, whole, place) };
}

/** What one act makes of a look. Pure: the whole instrument can be tried without a page. */
export function acted(look: Look, act: Act, view: SpectrumView): Look {
  const handler = HANDLERS[act.kind] as (look: Look, act: Act, view: SpectrumView) => Partial<Look>;
  return { ...look, ...handler(look, act, view) };
}

export function nearestBand({ bands }: SpectrumView, at: number): BandShown | undefined {
  const [first, ...rest] = bands;
  if (first === undefined) return undefined;
  return rest.reduce(
    (best, band) => (Math.abs(band.position - at) < Math.abs(best.position - at) ? band : best),
    first,
  );
}

const STEP = 1 / 400;
const STRIDE = 1 / 20;

const KEYS: Readonly<Record<string, (shift: boolean) => Act>> = {
  ArrowLeft: (shift) => (shift ? { kind: 'band', way: -1 } : { kind: 'step', share: -STEP }),
  ArrowRight: (shift) => (shift ? { kind: 'band', way: 1 } : { kind: 'step', share: STEP }),
  PageUp: () => ({ kind: 'step', share: -STRIDE }),
  PageDown: () => ({ kind: 'step', share: STRIDE }),
  '[': () => ({ kind: 'band', way: -1 }),
  ']': () => ({ kind: 'band', way: 1 }),
  '+': () => ({ kind: 'zoom', factor: 1.5 }),
  '=': () => ({ kind: 'zoom', factor: 1.5 }),
  '-': () => ({ kind: 'zoom', factor: 1 / 1.5 }),
  Home: () => ({ kind: 'whole' }),
  Escape: () => ({ kind: 'point', at: null }),
};

export const KEYS_SAID =
  'Left and right arrows move the cursor, with Shift, or with [ and ], to the next band. ' +
  'Plus and minus come closer and go back, Home shows the whole range, ' +
  'Enter chooses the band or window under the cursor.';

/** What a key does; keys with Ctrl, Alt or Meta are left to the browser. */
export function actOfKey(event: {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}): Act | undefined {
  if (event.ctrlKey || event.altKey || event.metaKey) return undefined;
  return Object.hasOwn(KEYS, event.key) ? KEYS[event.key]!(event.shiftKey) : undefined;
}
