import { THIN_SPACE } from '../../core/quantity/print.ts';
import type { Axis } from './axis.ts';
import { AXES, HEIGHTS } from './axis.ts';
import { MOST_TRACES } from './spectrum-view.ts';
import type { BandShown, SpectrumView } from './spectrum-view.ts';
import { axisNumber } from './ticks.ts';
import { VERDICT_WORDS } from './window-lanes.ts';

/** A position or width with its unit. */
export function withUnit(value: number, axis: Axis, decimal: '.' | ','): string {
  const number = axisNumber(value, axis.decimals, decimal);
  return axis.unit === '' ? number : `${number}${THIN_SPACE}${axis.unit}`;
}

/** "1700–1760 cm⁻¹", the end first that is drawn first. */
export function stretchWords(
  { low, high }: { readonly low: number; readonly high: number },
  axis: Axis,
  decimal: '.' | ',',
): string {
  const [first, last] = axis.falls ? [high, low] : [low, high];
  return `${axisNumber(first, axis.decimals, decimal)}–${withUnit(last, axis, decimal)}`;
}

/** In the order in which they are drawn, from left to right. */
export function bandsInOrder({ bands, axis = 'wavenumber' }: SpectrumView): BandShown[] {
  const way = AXES[axis].falls ? -1 : 1;
  return [...bands].sort((a, b) => way * (a.position - b.position) || (a.id < b.id ? -1 : 1));
}

/** What the picture shows, in sentences: what is read where it cannot be seen. */
export function spectrumSentences(view: SpectrumView, decimal: '.' | ','): string {
  const axis = AXES[view.axis ?? 'wavenumber'];
  const traces = view.traces.slice(0, MOST_TRACES).map(({ label }) => label);
  const bands = bandsInOrder(view).map(({ position, label }) => {
    const at = axisNumber(position, axis.decimals, decimal);
    return label === '' ? at : `${at} (${label})`;
  });
  const windows = view.windows.map(
    (window) =>
      `${window.label}, ${stretchWords(window, axis, decimal)}: ${VERDICT_WORDS[window.verdict]}.`,
  );
  const regions = view.regions.map(
    (region) => `Not judged: ${stretchWords(region, axis, decimal)}, ${region.label}.`,
  );
  return [
    `${HEIGHTS[view.yAxis].title} over ${axis.title === 'm/z' ? 'm/z' : axis.title.toLowerCase()}, ${stretchWords(view.range, axis, decimal)}.`,
    traces.length > 0 ? `Traces: ${traces.join(', ')}.` : 'No trace.',
    bands.length > 0
      ? `Bands${axis.unit === '' ? '' : ` in ${axis.unit}`}: ${bands.join(', ')}.`
      : 'No bands.',
    ...windows,
    ...regions,
  ].join(' ');
}
