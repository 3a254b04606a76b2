import { THIN_SPACE } from '../../core/quantity/print.ts';
import { AXES, HEIGHTS } from '../../picture/spectrum/axis.ts';
import { valueAt } from '../../picture/spectrum/series.ts';
import type { Series } from '../../picture/spectrum/series.ts';
import type { HeightKind, SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import { axisNumber } from '../../picture/spectrum/ticks.ts';
import { withUnit } from '../../picture/spectrum/words.ts';
import { nearestBand } from './instrument.ts';
import type { Look } from './instrument.ts';

export interface ReadOut {
  readonly position: string;
  readonly values: readonly {
    readonly id: string;
    readonly label: string;
    readonly text: string;
  }[];
  /** "band 1714 cm⁻¹, C=O stretch"; empty where none is near. */
  readonly band: string;
}

const DECIMALS: Readonly<Record<HeightKind, number>> = {
  transmittance: 1,
  absorbance: 3,
  intensity: 3,
};
/** A band further from the cursor than this share of what is seen is not near. */
const NEAR = 0.008;

/** What stands at the cursor, in print; nothing where nobody points. */
export function readOutOf(
  view: SpectrumView,
  series: ReadonlyMap<string, Series>,
  look: Look,
  seen: readonly [low: number, high: number],
  decimal: '.' | ',',
): ReadOut | undefined {
  const { cursor, yAxis, hidden } = look;
  if (cursor === null) return undefined;
  const axis = AXES[view.axis ?? 'wavenumber'];
  const { of, mark } = HEIGHTS[yAxis];
  const values = view.traces.flatMap(({ id, label }) => {
    const own = series.get(id);
    if (own === undefined || hidden.has(id)) return [];
    const y = valueAt(own, cursor);
    if (y === undefined) return [{ id, label, text: 'no value here' }];
    const number = axisNumber(of(y), DECIMALS[yAxis], decimal);
    return [{ id, label, text: mark === '' ? number : `${number}${THIN_SPACE}${mark}` }];
  });
  const near = nearestBand(view, cursor);
  const isNear =
    near !== undefined && Math.abs(near.position - cursor) <= NEAR * (seen[1] - seen[0]);
  const band = isNear
    ? ['band', withUnit(near.position, axis, decimal)].join(' ') +
      (near.label === '' ? '' : `, ${near.label}`)
    : '';
  return { position: withUnit(cursor, axis, decimal), values, band };
}

/** The same in a sentence, for a screen reader. */
export function spokenReadOut(readOut: ReadOut | undefined): string {
  if (readOut === undefined) return 'No cursor';
  const { position, values, band } = readOut;
  return [position, ...values.map(({ label, text }) => `${label} ${text}`), band]
    .filter((each) => each !== '')
    .join(', ');
}
