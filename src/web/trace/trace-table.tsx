import { memo } from 'react';
import { AXES } from '../../picture/spectrum/axis.ts';
import type { BandShown, SpectrumView, WindowShown } from '../../picture/spectrum/spectrum-view.ts';
import { axisNumber } from '../../picture/spectrum/ticks.ts';
import { VERDICT_WORDS } from '../../picture/spectrum/window-lanes.ts';
import { bandsInOrder, stretchWords } from '../../picture/spectrum/words.ts';

interface TableProps {
  readonly view: SpectrumView;
  readonly decimal: '.' | ',';
  readonly onBand: (band: BandShown) => void;
  readonly onWindow: (window: WindowShown) => void;
}

/** All that the picture says, in words and numbers. */
export const TraceTable = memo(function TraceTable(props: TableProps) {
  const { bands, windows, regions } = props.view;
  const axis = AXES[props.view.axis ?? 'wavenumber'];
  return (
    <>
      {windows.length > 0 && <WindowTable {...props} />}
      {bands.length > 0 && <BandTable {...props} />}
      {bands.length === 0 && <p>No band stands out.</p>}
      {regions.map((region) => (
        <p key={`${region.low} ${region.label}`}>
          Not judged: {stretchWords(region, axis, props.decimal)}, {region.label}.
        </p>
      ))}
    </>
  );
});

function WindowTable({ view, decimal, onWindow }: TableProps) {
  const axis = AXES[view.axis ?? 'wavenumber'];
  return (
    <div className="strip" tabIndex={0} role="region" aria-label="Expected bands">
      <table>
        <caption>Where bands are expected</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col" className="number">
              From – to{unitOf(axis)}
            </th>
            <th scope="col">Outcome</th>
            <th scope="col">Bands there</th>
          </tr>
        </thead>
        <tbody>
          {view.windows.map((window) => (
            <tr key={window.id} data-chosen={window.selected === true}>
              <th scope="row">
                <button type="button" className="trace-go" onClick={() => onWindow(window)}>
                  {window.label}
                </button>
              </th>
              <td className="number">
                {axisNumber(axis.falls ? window.high : window.low, axis.decimals, decimal)}–
                {axisNumber(axis.falls ? window.low : window.high, axis.decimals, decimal)}
              </td>
              <td>{VERDICT_WORDS[window.verdict]}</td>
              <td>
                {bandsInOrder(view)
                  .filter((band) => liesIn(band, window))
                  .map(({ position }) => axisNumber(position, axis.decimals, decimal))
                  .join(', ') || 'none'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function BandTable({ view, decimal, onBand }: TableProps) {
  const axis = AXES[view.axis ?? 'wavenumber'];
  return (
    <div className="strip" tabIndex={0} role="region" aria-label="Bands">
      <table>
        <caption>Bands, as they stand from left to right</caption>
        <thead>
          <tr>
            <th scope="col" className="number">
              Position{unitOf(axis)}
            </th>
            <th scope="col" className="number">
              Height{view.yAxis === 'intensity' ? '' : ', absorbance'}
            </th>
            <th scope="col" className="number">
              Width{unitOf(axis)}
            </th>
            <th scope="col">What</th>
            <th scope="col">Expected there</th>
          </tr>
        </thead>
        <tbody>
          {bandsInOrder(view).map((band) => (
            <tr key={band.id} data-chosen={band.selected === true}>
              <th scope="row" className="number">
                <button type="button" className="trace-go" onClick={() => onBand(band)}>
                  {axisNumber(band.position, axis.decimals, decimal)}
                </button>
              </th>
              <td className="number">{axisNumber(band.height, 3, decimal)}</td>
              <td className="number">
                {band.width === undefined ? '–' : axisNumber(band.width, axis.decimals, decimal)}
              </td>
              <td>{band.label}</td>
              <td>
                {view.windows
                  .filter((window) => liesIn(band, window))
                  .map(({ label, verdict }) => `${label}, ${VERDICT_WORDS[verdict]}`)
                  .join('; ')}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const unitOf = ({ unit }: { readonly unit: string }) => (unit === '' ? '' : ` / ${unit}`);

const liesIn = ({ position }: BandShown, { low, high }: WindowShown) =>
  position >= low && position <= high;
