import { useCallback, useId, useMemo, useReducer } from 'react';
import { layoutOf } from '../../picture/spectrum/layout.ts';
import { seriesOf } from '../../picture/spectrum/series.ts';
import { spectrumPicture } from '../../picture/spectrum/spectrum-picture.ts';
import type { SpectrumCaption } from '../../picture/spectrum/spectrum-picture.ts';
import { MOST_TRACES } from '../../picture/spectrum/spectrum-view.ts';
import type { BandShown, SpectrumView, WindowShown } from '../../picture/spectrum/spectrum-view.ts';
import { strokesOf } from '../../picture/spectrum/strokes.ts';
import { stretchOf, valuesIn } from '../../picture/spectrum/x-scale.ts';
import { useWidth } from '../result/use-width.ts';
import { Controls } from './controls.tsx';
import type { Hit } from './hit.ts';
import { acted, firstLook, KEYS_SAID, scaleOf } from './instrument.ts';
import type { Act, Look } from './instrument.ts';
import { Overview } from './overview.tsx';
import { readOutOf, spokenReadOut } from './read-out.ts';
import { fileNameOf } from './save-picture.ts';
import { Stage } from './stage.tsx';
import { TraceHeading } from './trace-heading.tsx';
import { TraceTable } from './trace-table.tsx';
import { useOnPaper } from './use-on-paper.ts';
import { isWhole } from './viewport.ts';
import './trace.css';

export interface TraceProps {
  /** While the array `traces` is the same one, its extremes are not looked for again. */
  readonly view: SpectrumView;
  /** What a saved or printed picture says of itself. */
  readonly caption: SpectrumCaption;
  readonly decimal?: '.' | ',';
  /** Of the picture, in px; as the width has it if it is not said. */
  readonly height?: number;
  readonly onSelectBand?: (id: string) => void;
  readonly onSelectWindow?: (id: string) => void;
}

/** Traces as an instrument: a picture to point at, come closer to and choose in; and as a table. */
export function Trace(props: TraceProps) {
  const { axis = 'wavenumber', yAxis, range } = props.view;
  // Another range is another trace: nobody wants to look at it where they looked at the last.
  return <Instrument key={`${axis} ${yAxis} ${range.low} ${range.high}`} {...props} />;
}

/** A window from the table is shown with this much of its width on each side. */
const SURROUNDINGS = 2;

function Instrument(props: TraceProps) {
  const { view, caption, decimal = '.', onSelectBand, onSelectWindow } = props;
  const [look, act] = useReducer(
    (before: Look, next: Act) => acted(before, next, view),
    view,
    firstLook,
  );
  const prefix = `trace-${useId().replace(/[^\w-]/g, '')}`;
  const onBand = useCallback(
    (band: BandShown) => {
      act({ kind: 'point', at: band.position, snap: false });
      onSelectBand?.(band.id);
    },
    [onSelectBand],
  );
  const onWindow = useCallback(
    ({ id, low, high }: WindowShown) => {
      const beside = SURROUNDINGS * (high - low);
      act({ kind: 'see', low: low - beside, high: high + beside });
      onSelectWindow?.(id);
    },
    [onSelectWindow],
  );
  const paper = (idPrefix: string) =>
    spectrumPicture(
      { ...view, yAxis: look.yAxis },
      { ...look, caption, decimal, idPrefix, theme: 'print', width: 900, height: 540 },
    );
  return (
    <section className="trace" aria-label={`Trace of ${caption.name}`}>
      <div className="trace-screen">
        <Looking {...props} look={look} act={act} prefix={prefix} />
        <Controls
          view={view}
          look={look}
          whole={isWhole(look.stretch, stretchOf(scaleOf(view, look), view.range))}
          act={act}
          picture={() => paper('saved')}
          fileName={fileNameOf(caption.name)}
        />
      </div>
      <OnPaper picture={paper} prefix={`${prefix}-paper`} />
      <details className="trace-words">
        <summary>
          The same as a table: {countOf(view.windows.length, 'expected band')},{' '}
          {countOf(view.bands.length, 'band')} found
        </summary>
        <TraceTable view={view} decimal={decimal} onBand={onBand} onWindow={onWindow} />
      </details>
    </section>
  );
}

interface LookingProps extends TraceProps {
  readonly look: Look;
  readonly act: (act: Act) => void;
  readonly prefix: string;
}

/** The names of the traces, what stands at the cursor, the picture and the whole range in small. */
function Looking(props: LookingProps) {
  const { view, decimal = '.', look, act, prefix, onSelectBand, onSelectWindow } = props;
  const [place, width] = useWidth<HTMLDivElement>();
  const { series, strokes, layout } = useDrawn(props, look, width);
  const seen = valuesIn(scaleOf(view, look), look.stretch);
  const readOut = readOutOf(view, series, look, seen, decimal);
  const choose = ({ kind, id }: Hit) =>
    kind === 'band' ? onSelectBand?.(id) : onSelectWindow?.(id);
  return (
    <>
      <TraceHeading view={view} look={look} strokes={strokes} readOut={readOut} act={act} />
      <p id={`${prefix}-keys`} className="spoken">
        {KEYS_SAID}
      </p>
      <div ref={place} className="trace-place">
        {layout !== undefined && (
          <>
            <Stage
              layout={layout}
              look={look}
              strokes={strokes}
              prefix={prefix}
              range={view.range}
              said={spokenReadOut(readOut)}
              describedBy={`${prefix}-keys`}
              act={act}
              choose={choose}
            />
            <Overview
              view={view}
              series={series.get(view.traces[0]?.id ?? '')}
              look={look}
              plot={layout.plot}
              decimal={decimal}
              act={act}
            />
          </>
        )}
      </div>
    </>
  );
}

const countOf = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;

/** What is drawn: values with their extremes once a trace, places once a look. */
function useDrawn({ view, decimal = '.', height }: TraceProps, look: Look, width: number) {
  const { traces } = view;
  const series = useMemo(
    () => new Map(traces.slice(0, MOST_TRACES).map((trace) => [trace.id, seriesOf(trace)])),
    [traces],
  );
  const strokes = useMemo(() => strokesOf(traces), [traces]);
  const { stretch, scale, yAxis, fitHeight, hidden } = look;
  const layout = useMemo(
    () =>
      width > 0
        ? layoutOf({ ...view, yAxis }, series, {
            width,
            height: height ?? usualHeight(view, width),
            scale,
            decimal,
            stretch,
            fitHeight,
            hidden,
          })
        : undefined,
    [view, series, width, height, scale, decimal, stretch, yAxis, fitHeight, hidden],
  );
  return { series, strokes, layout };
}

/** Room for the lanes of the windows over a plot of a good shape. */
const usualHeight = ({ windows }: SpectrumView, width: number) =>
  Math.round(Math.min(480, Math.max(330, width * 0.42))) +
  Math.min(width < 620 ? 4 : 3, windows.length) * 30;

/** Paper shows the picture in black, of what is seen on the screen. */
function OnPaper({
  picture,
  prefix,
}: {
  readonly picture: (prefix: string) => string;
  readonly prefix: string;
}) {
  const onPaper = useOnPaper();
  if (!onPaper) return null;
  return <div className="trace-paper" dangerouslySetInnerHTML={{ __html: picture(prefix) }} />;
}
