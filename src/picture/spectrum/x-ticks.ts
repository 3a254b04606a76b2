import type { Stretch, XScale } from './x-scale.ts';
import { valuesIn } from './x-scale.ts';
import { roundStep, ticksOf } from './ticks.ts';
import type { Tick } from './ticks.ts';

export interface XTick extends Tick {
  readonly x: number;
  /** Between two numbers: shorter, without one. */
  readonly minor: boolean;
}

/**
 * Ticks of what is seen, on each side of a split with a step of its own. `most` is how many numbers
 * there is room for.
 */
export function xTicks(
  scale: XScale,
  stretch: Stretch,
  xOf: (x: number) => number,
  most: number,
  decimal: '.' | ',',
): XTick[] {
  const [low, high] = valuesIn(scale, stretch);
  const { split } = scale;
  const parts =
    split === undefined || split <= low || split >= high
      ? [[low, high] as const]
      : ([
          [low, split],
          [split, high],
        ] as const);
  const across = Math.abs(xOf(high) - xOf(low));
  const steps = parts.map(([a, b]) => {
    const share = Math.abs(xOf(b) - xOf(a)) / (across || 1);
    return roundStep(b - a, Math.max(1, Math.floor(most * share)));
  });
  return parts.flatMap(([a, b], i) => {
    const step = steps[i]!;
    const all = ticksOf(a, b, step, decimal);
    // 2 is parted in two, 1 and 5 in five.
    const parting = Math.abs(step / 10 ** Math.floor(Math.log10(step) + 1e-9) - 2) < 1e-6 ? 2 : 5;
    const major = i === 0 ? all : all.filter(({ value }) => value !== split);
    const minor = ticksOf(a, b, step / parting).filter(
      ({ value }) => !all.some((tick) => Math.abs(tick.value - value) < step / 100),
    );
    return [
      ...major.map((tick) => ({ ...tick, x: xOf(tick.value), minor: false })),
      ...minor.map((tick) => ({ ...tick, x: xOf(tick.value), minor: true })),
    ];
  });
}
