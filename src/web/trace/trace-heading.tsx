import { PAGE } from '../../picture/spectrum/colours.ts';
import { MOST_TRACES } from '../../picture/spectrum/spectrum-view.ts';
import type { SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import type { Stroke } from '../../picture/spectrum/strokes.ts';
import type { Act, Look } from './instrument.ts';
import type { ReadOut } from './read-out.ts';

/**
 * What stands at the cursor, over the picture where no finger hides it: the position, the value of
 * each trace beside its name, the band. A screen reader hears it from the picture itself.
 */
export function TraceHeading({
  view,
  look,
  strokes,
  readOut,
  act,
}: {
  readonly view: SpectrumView;
  readonly look: Look;
  readonly strokes: ReadonlyMap<string, Stroke>;
  readonly readOut: ReadOut | undefined;
  readonly act: (act: Act) => void;
}) {
  const several = view.traces.length > 1;
  const valueOf = (id: string) => readOut?.values.find((value) => value.id === id)?.text ?? '';
  const [first] = view.traces;
  return (
    <>
      {several && (
        <ul className="trace-key" aria-label="Traces">
          {view.traces.slice(0, MOST_TRACES).map((trace) => (
            <li key={trace.id}>
              <label>
                <input
                  type="checkbox"
                  checked={!look.hidden.has(trace.id)}
                  onChange={() => act({ kind: 'trace', id: trace.id })}
                />
                <svg width="30" height="10" aria-hidden="true">
                  <path
                    d="M0 5H30"
                    fill="none"
                    stroke={PAGE.roles[trace.role]}
                    strokeWidth="2"
                    strokeDasharray={strokes.get(trace.id)?.dashes.join(' ')}
                  />
                </svg>
                <span className="name">{trace.label}</span>
              </label>
              <span className="value" aria-hidden="true">
                {valueOf(trace.id)}
              </span>
            </li>
          ))}
          {view.traces.length > MOST_TRACES && (
            <li className="quiet">{view.traces.length - MOST_TRACES} more not drawn</li>
          )}
        </ul>
      )}
      <p className="trace-read-out" aria-hidden="true">
        {readOut === undefined ? (
          <span className="quiet">Point at the trace to read it.</span>
        ) : (
          <>
            <b>{readOut.position}</b>
            {!several && first !== undefined && <span>{valueOf(first.id)}</span>}
            {readOut.band !== '' && <span className="band">{readOut.band}</span>}
          </>
        )}
      </p>
    </>
  );
}
