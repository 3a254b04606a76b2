import type { CarbonylReading } from './carbonyl.ts';
import { readCarbonyl } from './carbonyl.ts';
import type { TraceContext } from './context.ts';
import type { XhCause } from './xh-condensed.ts';
import { xhCauses } from './xh-condensed.ts';
import type { XhFeatures } from './xh-features.ts';
import { xhFeatures } from './xh-features.ts';
import type { GasReading } from './xh-gas.ts';
import { readGas } from './xh-gas.ts';

/** What several groups need: the C=O and the X–H region, read once. */
export interface Readings {
  readonly context: TraceContext;
  readonly carbonyl: CarbonylReading;
  readonly xh: XhFeatures;
  readonly causes: ReadonlyMap<XhCause, number>;
  readonly gas?: GasReading;
}

export function readingsOf(context: TraceContext): Readings {
  const carbonyl = readCarbonyl(context);
  const xh = xhFeatures(context, carbonyl);
  return {
    context,
    carbonyl,
    xh,
    causes: xhCauses(context, xh),
    ...(context.state === 'gas' && { gas: readGas(context, carbonyl.probability) }),
  };
}

/** Added shares of some causes. */
export function sharesOf<Name>(causes: ReadonlyMap<Name, number>, names: readonly Name[]): number {
  return names.reduce((sum, name) => sum + (causes.get(name) ?? 0), 0);
}
