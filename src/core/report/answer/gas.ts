import type { Enactment } from '../../enact/enactment.ts';
import { formatQuantity } from '../../quantity/print.ts';
import { nameOf } from '../common/name.ts';
import { stepsSaid } from '../common/words.ts';
import type { Named } from '../theory/theory.ts';

/** A gas that leaves the vessels, over all steps; in L at 20 °C and 101.325 kPa. */
export interface GasSum extends Named {
  readonly amount_mmol: number;
  readonly volume_L: number;
  readonly steps: readonly string[];
}

/** Below this nobody sees a bubble. */
const LEAST_GAS_L = 0.0005;

export function gasesOf(enactment: Enactment): GasSum[] {
  const sums = new Map<string, GasSum>();
  for (const { substance, volume_L, amount_mmol, step } of enactment.gases) {
    const held = sums.get(substance);
    sums.set(substance, {
      substance,
      name: nameOf(enactment, substance),
      amount_mmol: amount_mmol + (held?.amount_mmol ?? 0),
      volume_L: volume_L + (held?.volume_L ?? 0),
      steps: [...new Set([...(held?.steps ?? []), step])],
    });
  }
  return [...sums.values()].filter((gas) => gas.volume_L >= LEAST_GAS_L);
}

export function gasSentences(gases: readonly GasSum[]): string[] {
  return gases.map(({ volume_L, name, steps }) => {
    const volume = formatQuantity(volume_L * 1000, 'volume', 2);
    return `Gives off ${volume} of ${name} in ${stepsSaid(steps)} (gas at 20 °C).`;
  });
}
