import { definitions, surroundings } from '../src/picture/spectrum/draw.ts';
import { lineOf } from '../src/picture/spectrum/draw-curves.ts';
import { layoutOf } from '../src/picture/spectrum/layout.ts';
import type { Layout } from '../src/picture/spectrum/layout.ts';
import { seriesOf } from '../src/picture/spectrum/series.ts';
import type { Series } from '../src/picture/spectrum/series.ts';
import { PAGE } from '../src/picture/spectrum/colours.ts';
import { spectrumPicture } from '../src/picture/spectrum/spectrum-picture.ts';
import type { SpectrumView, TraceRole } from '../src/picture/spectrum/spectrum-view.ts';
import { strokesOf } from '../src/picture/spectrum/strokes.ts';
import type { Item, Timed } from './item.ts';
import { warmTimesOf } from './measure.ts';

const POINTS = 16_000;
const WIDTH = 1440;
const FRAME_ms = 1000 / 60;
const REPEATS = 200;
const ROLES: readonly TraceRole[] = [
  'sample',
  'startingMaterial',
  'reference',
  'product',
  'reference',
];

/** Bands of many widths on a rippled base line, the same at every run. */
function madeView(): SpectrumView {
  const x = Float64Array.from({ length: POINTS }, (_, i) => 400 + (3600 * i) / (POINTS - 1));
  const traces = ROLES.map((role, n) => {
    const centres = Array.from({ length: 24 }, (_, k) => 450 + ((k * 997 + n * 311) % 3400));
    const y = x.map((at, i) =>
      centres.reduce(
        (sum, centre, k) =>
          sum + (0.1 + (k % 7) / 8) / (1 + ((at - centre) / (6 + 4 * (k % 5))) ** 2),
        0.004 * Math.sin(i * 12.9898) * Math.sin(i * 78.233),
      ),
    );
    return { id: `t${n}`, label: `Trace ${n}`, role, x, y, centres };
  });
  const bands = traces[0]!.centres.map((position, k) => ({
    id: `b${k}`,
    position,
    height: 0.1 + (k % 7) / 8,
    label: '',
  }));
  const windows = [3300, 2900, 1720, 1600, 1200, 700].map((middle, k) => ({
    id: `w${k}`,
    low: middle - 60,
    high: middle + 60,
    label: `Expected ${k}`,
    verdict: (['present', 'absent', 'cannotTell'] as const)[k % 3]!,
  }));
  const range = { low: 400, high: 4000 };
  return { traces, windows, bands, regions: [], yAxis: 'transmittance', range };
}

/** What a page would do without any thinning: every point of every trace to its place in px. */
function allPoints(view: SpectrumView, { xOf, yOf }: Layout): Float64Array[] {
  return view.traces.map(({ x, y }) => {
    const line = new Float64Array(2 * x.length);
    for (let i = 0; i < x.length; i++) {
      line[2 * i] = xOf(x[i]!);
      line[2 * i + 1] = yOf(y[i]!);
    }
    return line;
  });
}

const countIn = (lines: readonly Float64Array[]) =>
  lines.reduce((sum, { length }) => sum + length / 2, 0);

/** A frame of panning with five overlays, and what is made once. */
export function trace(): Item[] {
  const view = madeView();
  const series = new Map(view.traces.map((each) => [each.id, seriesOf(each)]));
  const strokes = strokesOf(view.traces);
  let frame = 0;
  /** Two thirds of the whole, a little further at each frame. */
  const layoutNow = () => {
    const from = -3000 + ((frame++ * 7) % 900);
    const options = { width: WIDTH, height: 600, scale: 'split', decimal: '.' } as const;
    return layoutOf(view, series, { ...options, stretch: { from, to: from + 1700 } });
  };
  const curvesIn = (layout: Layout) =>
    [...series.values()].map((each: Series) => lineOf(layout, each));
  const still = layoutNow();
  const naive: Timed = {
    what: 'every point of every trace put to its px',
    times_ms: warmTimesOf(REPEATS, () => allPoints(view, still)),
  };
  const [kept, all] = [countIn(curvesIn(still)), countIn(allPoints(view, still))];
  return [
    {
      what: `The curves of five traces of ${POINTS} points, ${WIDTH} px wide, as lines to draw`,
      times_ms: warmTimesOf(REPEATS, () => curvesIn(still)),
      baseline: naive,
      remarks: [`${kept} points to draw in place of ${all}: that is what the canvas saves.`],
    },
    {
      what: 'All of one frame of panning but the canvas: places, labels, surroundings, curves',
      times_ms: warmTimesOf(REPEATS, () => {
        const layout = layoutNow();
        const pen = { layout, strokes, prefix: 'bench', colours: PAGE };
        return [definitions(pen), surroundings(pen), curvesIn(layout)];
      }),
      budget_ms: FRAME_ms / 2,
      baseline: naive,
      remarks: ['The budget is half a frame at 60 a second: the browser has the other half.'],
    },
    {
      what: 'The extremes of one trace, found once when it is opened',
      times_ms: warmTimesOf(REPEATS, () => seriesOf(view.traces[0]!)),
      baseline: naive,
      remarks: [],
    },
    {
      what: 'The standalone picture of all five',
      times_ms: warmTimesOf(50, () => spectrumPicture(view, { caption: { name: 'Made' } })),
      baseline: naive,
      remarks: [],
    },
  ];
}
