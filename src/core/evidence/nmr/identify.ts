import type { Environments } from '../../chemistry/environments.ts';
import { MOST_STEPS, isPerfect, matchSignals } from './match-signals.ts';
import type { Matching } from './match-signals.ts';
import { areaOf } from './partition.ts';
import { countsForTotals, simplestRatio } from './proton-counts.ts';
import type { NmrSignal } from './schema.ts';

/** Scales of the integrals that are tried. */
const MOST_SCALES = 8;
/** Small signals that may be left out when the scale is looked for. */
const MOST_LEFT_OUT = 4;
/** Steps of the matcher for one scale of many; the best scale gets all. */
const FEW_STEPS = 300;
/** What the matcher charges for a signal that no environment explains; a named one is cheap. */
const NAMED_REBATE = 0.8;

export interface Identification extends Matching {
  /** Area of one hydrogen of the product; absent without integrals. */
  readonly scale?: number;
}

function totalsOf({ list }: Environments): number[] {
  const count = (exchangeable: boolean) =>
    list
      .filter((env) => env.exchangeable === exchangeable)
      .reduce((sum, env) => sum + env.hydrogens, 0);
  const fixed = count(false);
  // Any number of the OH and NH may be too broad to integrate, or exchanged.
  return Array.from({ length: count(true) + 1 }, (_, i) => fixed + i);
}

/** Areas of one hydrogen worth trying, the likeliest first. */
function scalesOf(
  environments: Environments,
  signals: readonly NmrSignal[],
  named: ReadonlySet<number>,
  relativeU: number,
): number[] {
  const said = signals.flatMap((signal) => {
    const area = areaOf(signal);
    const hydrogens = signal.assignment?.hydrogens;
    return area === undefined || hydrogens === undefined ? [] : [{ area, hydrogens }];
  });
  if (said.length > 0)
    return [
      said.reduce((sum, { area }) => sum + area, 0) /
        said.reduce((sum, { hydrogens }) => sum + hydrogens, 0),
    ];
  const areas = (but: ReadonlySet<number>) =>
    signals.flatMap((signal, i) => (but.has(i) ? [] : (areaOf(signal) ?? [])));
  const all = areas(new Set());
  const byThat = (list: readonly number[]) =>
    totalsOf(environments).flatMap((total) => {
      const found = countsForTotals(list, [total], relativeU);
      return found === undefined ? [] : [found.scale];
    });
  const largest = [...all].sort((a, b) => b - a);
  const fewer = Array.from({ length: Math.min(MOST_LEFT_OUT, all.length - 1) }, (_, i) =>
    largest.slice(0, largest.length - i - 1),
  );
  const tried = [
    ...byThat(areas(named)),
    ...byThat(all),
    ...fewer.flatMap(byThat),
    ...(simplestRatio(all, relativeU) === undefined ? [] : [simplestRatio(all, relativeU)!.scale]),
  ];
  const distinct: number[] = [];
  for (const scale of tried)
    if (!distinct.some((other) => Math.abs(scale / other - 1) < 0.02)) distinct.push(scale);
  return distinct.slice(0, MOST_SCALES);
}

/** The scale again, from the signals whose environments are known and do not exchange. */
function refined(
  { list }: Environments,
  signals: readonly NmrSignal[],
  { matches }: Matching,
): number | undefined {
  let area = 0;
  let hydrogens = 0;
  for (const match of matches) {
    const own = areaOf(signals[match.signal]!);
    if (own === undefined || !match.counted) continue;
    if (match.parts.some((part) => list[part.environment]!.exchangeable)) continue;
    area += own;
    hydrogens += match.hydrogens;
  }
  return hydrogens === 0 ? undefined : area / hydrogens;
}

/**
 * The scale of the integrals and the assignment of signals that agree best with a structure.
 * `named` are signals that a residual solvent would explain as well.
 */
export function identify(
  environments: Environments,
  signals: readonly NmrSignal[],
  named: ReadonlySet<number>,
  relativeU: number,
): Identification {
  const hydrogensAt = (scale: number | undefined) =>
    signals.map((signal) => {
      const area = areaOf(signal);
      return area === undefined || scale === undefined ? undefined : area / scale;
    });
  const attempt = (first: number, steps: number): Identification => {
    const rough = matchSignals(environments, signals, hydrogensAt(first), steps);
    const scale = refined(environments, signals, rough) ?? first;
    const found =
      Math.abs(scale / first - 1) < 0.005
        ? rough
        : matchSignals(environments, signals, hydrogensAt(scale), steps);
    const rebate = found.unused.filter((i) => named.has(i)).length * NAMED_REBATE;
    return { ...found, scale, cost: found.cost - rebate };
  };
  const scales = scalesOf(environments, signals, named, relativeU);
  if (scales.length === 0) return matchSignals(environments, signals, hydrogensAt(undefined));
  let best: Identification | undefined;
  for (const first of scales) {
    const one = attempt(first, FEW_STEPS);
    if (best === undefined || one.cost < best.cost - 1e-9) best = one;
    if (isPerfect({ ...one, unused: one.unused.filter((i) => !named.has(i)) })) break;
  }
  return best!.cutOff ? attempt(best!.scale!, MOST_STEPS) : best!;
}
