import type { Environments } from '../../chemistry/environments.ts';
import { expectedPattern, patternFits, readMultiplicity } from './multiplicity.ts';
import type { NmrSignal } from './schema.ts';
import { shiftWindow, surroundingsOf } from './shift-window.ts';
import type { ShiftWindow } from './shift-window.ts';
import { distanceTo, middleOf } from './signal.ts';

/** How far a signal may lie outside its window and still be taken for the environment. */
const REACH_PPM = 0.3;
/** Hydrogen bonds and water move OH and NH far. */
const REACH_EXCHANGEABLE_PPM = 2;
const AWAY_EXCHANGEABLE = 0.3;

/**
 * Hydrogens that a count may be off by before it is a mismatch: in routine spectra, with short
 * delays between pulses, a tenth and a little more (common practice).
 */
const slackOf = (hydrogens: number): number => 0.35 + 0.1 * hydrogens;
/** Combinations tried before the best so far has to do. */
export const MOST_STEPS = 4000;

const COST = {
  missing: 3,
  missingExchangeable: 0.4,
  hydrogen: 2,
  pattern: 1.2,
  unused: 1,
  away: 2,
};

export interface SignalMatch {
  readonly signal: number;
  /** Environments under it, each with how many of its hydrogens. */
  readonly parts: readonly { readonly environment: number; readonly hydrogens: number }[];
  readonly hydrogens: number;
  readonly patternFits: boolean;
  /** The integral is that of its hydrogens, or there is none. */
  readonly counted: boolean;
}

export interface Matching {
  readonly matches: readonly SignalMatch[];
  /** Environments that no signal shows. */
  readonly missing: readonly number[];
  /** Signals that no environment explains. */
  readonly unused: readonly number[];
  /** Lower is better; 0 would be a perfect agreement. */
  readonly cost: number;
  /** The search was cut off: there may be a better one. */
  readonly cutOff: boolean;
}

/** What of one environment stands together: all of it, or each half where its hydrogens may differ. */
interface Unit {
  readonly environment: number;
  readonly hydrogens: number;
  readonly near: readonly { readonly signal: number; readonly cost: number }[];
  readonly skip: number;
}

/** What each environment is expected to look like: window and pattern. */
export interface Expectation {
  readonly window: ShiftWindow;
  readonly pattern: string;
}

export function expectationsOf({ skeleton, list }: Environments): Expectation[] {
  return list.map((env) => ({
    window: shiftWindow(skeleton, env),
    pattern: expectedPattern(env, list, surroundingsOf(skeleton, env)),
  }));
}

function unitsOf(environments: Environments, signals: readonly NmrSignal[]): Unit[] {
  const units = environments.list.flatMap((env, environment): Unit[] => {
    const window = shiftWindow(environments.skeleton, env);
    const centre = (window.low_ppm + window.high_ppm) / 2;
    const width = window.high_ppm - window.low_ppm;
    const near = signals.flatMap((signal, i) => {
      const away = distanceTo(signal, window.low_ppm, window.high_ppm);
      if (away > (env.exchangeable ? REACH_EXCHANGEABLE_PPM : REACH_PPM)) return [];
      const perPpm = env.exchangeable ? AWAY_EXCHANGEABLE : COST.away;
      const cost = away * perPpm + (0.15 * Math.abs(middleOf(signal) - centre)) / width;
      return [{ signal: i, cost }];
    });
    const halves = env.mayDiffer && env.hydrogens % 2 === 0;
    const hydrogens = halves ? env.hydrogens / 2 : env.hydrogens;
    const skip = (env.exchangeable ? COST.missingExchangeable : COST.missing) / (halves ? 2 : 1);
    const unit = { environment, hydrogens, near, skip };
    return halves ? [unit, unit] : [unit];
  });
  // What has few places first, then what is hard to place.
  const places = (unit: Unit) => Math.min(3, unit.near.length);
  return units.sort(
    (a, b) => places(a) - places(b) || b.hydrogens - a.hydrogens || a.environment - b.environment,
  );
}

type Picks = (number | undefined)[];

/** For each environment and signal, whether the pattern fits; true where none was written. */
function patternTable(environments: Environments, signals: readonly NmrSignal[]): boolean[][] {
  const { list, skeleton } = environments;
  const seen = signals.map(({ multiplicity }) =>
    multiplicity === undefined ? undefined : readMultiplicity(multiplicity),
  );
  return list.map((env) => {
    const around = surroundingsOf(skeleton, env);
    return seen.map((pattern) => pattern === undefined || patternFits(pattern, env, list, around));
  });
}

function settled(
  patterns: readonly (readonly boolean[])[],
  signals: readonly NmrSignal[],
  hydrogens: readonly (number | undefined)[],
  units: readonly Unit[],
  picks: Picks,
): Omit<Matching, 'cutOff'> {
  const matches: SignalMatch[] = [];
  const unused: number[] = [];
  let cost = 0;
  signals.forEach((_, i) => {
    const parts = units.flatMap((unit, k) =>
      picks[k] === i ? [{ environment: unit.environment, hydrogens: unit.hydrogens }] : [],
    );
    if (parts.length === 0) {
      unused.push(i);
      cost += COST.unused;
      return;
    }
    const sum = parts.reduce((total, part) => total + part.hydrogens, 0);
    const [only, ...more] = new Set(parts.map((part) => part.environment));
    // Several environments under one signal may give any pattern.
    const fits = more.length > 0 || patterns[only!]![i]!;
    if (!fits) cost += COST.pattern;
    const off = Math.abs(sum - (hydrogens[i] ?? sum));
    cost += 0.3 * off + COST.hydrogen * Math.max(0, off - slackOf(sum));
    const counted = off <= slackOf(sum);
    matches.push({ signal: i, parts, hydrogens: sum, patternFits: fits, counted });
  });
  const missing = new Set<number>();
  units.forEach((unit, k) => {
    const pick = picks[k];
    if (pick === undefined) missing.add(unit.environment);
    cost += pick === undefined ? unit.skip : unit.near.find((n) => n.signal === pick)!.cost;
  });
  return { matches, missing: [...missing].sort((a, b) => a - b), unused, cost };
}

/** Rounds of moving units about; each ends with a lower cost or is the last. */
const MOST_ROUNDS = 40;

/** A cut-off search bettered by moves of one unit and exchanges of two, as long as they help. */
function improved(
  units: readonly Unit[],
  start: Picks,
  price: (picks: Picks) => Omit<Matching, 'cutOff'>,
): Omit<Matching, 'cutOff'> {
  const picks: Picks = [...start];
  let best = price(picks);
  const mayTake = (k: number, pick: number | undefined): boolean =>
    pick === undefined || units[k]!.near.some((n) => n.signal === pick);
  const attempt = (changes: readonly (readonly [k: number, pick: number | undefined])[]): void => {
    const before = changes.map(([k]) => picks[k]);
    for (const [k, pick] of changes) picks[k] = pick;
    const found = price(picks);
    if (found.cost < best.cost - 1e-9) best = found;
    else changes.forEach(([k], i) => (picks[k] = before[i]));
  };
  for (let round = 0; round < MOST_ROUNDS && !isPerfect(best); round++) {
    const cost = best.cost;
    units.forEach((unit, k) => {
      for (const { signal } of unit.near) if (picks[k] !== signal) attempt([[k, signal]]);
      for (let j = 0; j < k; j++) {
        if (picks[j] === picks[k] || !mayTake(j, picks[k]) || !mayTake(k, picks[j])) continue;
        attempt([
          [j, picks[k]],
          [k, picks[j]],
        ]);
      }
    });
    if (best.cost >= cost - 1e-9) break;
  }
  return best;
}

/** Nothing missing, nothing over, every pattern and count right: no need to look for a cheaper one. */
export function isPerfect({ matches, missing, unused }: Omit<Matching, 'cutOff'>): boolean {
  return (
    missing.length === 0 &&
    unused.length === 0 &&
    matches.every((match) => match.patternFits && match.counted)
  );
}

/**
 * The assignment of environments to signals that costs least: each environment under one signal
 * (or two, where its hydrogens may differ), inside its shift window, with the counted hydrogens and
 * the pattern. `hydrogens` are the integrals on the scale of one hydrogen, undefined where none was
 * taken. Branch and bound; after many steps the best so far, bettered by moves, is given and `cutOff`
 * set unless it is perfect.
 */
export function matchSignals(
  environments: Environments,
  signals: readonly NmrSignal[],
  hydrogens: readonly (number | undefined)[],
  mostSteps = MOST_STEPS,
): Matching {
  const units = unitsOf(environments, signals);
  const patterns = patternTable(environments, signals);
  const filled = signals.map(() => 0);
  const picks: Picks = units.map(() => undefined);
  // The least that the units from k on can cost.
  const rest = units.map(() => 0);
  for (let k = units.length - 1; k >= 0; k--)
    rest[k] = (rest[k + 1] ?? 0) + Math.min(units[k]!.skip, ...units[k]!.near.map((n) => n.cost));
  let best: Omit<Matching, 'cutOff'> | undefined;
  let bestPicks: Picks = [...picks];
  let steps = 0;
  const done = (): boolean => steps > mostSteps || (best !== undefined && isPerfect(best));
  const over = (signal: number, more: number): number => {
    const room = hydrogens[signal];
    const sum = filled[signal]! + more;
    return room === undefined ? 0 : Math.max(0, sum - room - slackOf(sum));
  };

  const walk = (k: number, cost: number): void => {
    if (done() || cost + (rest[k] ?? 0) >= (best?.cost ?? Infinity)) return;
    steps++;
    const unit = units[k];
    if (unit === undefined) {
      const found = settled(patterns, signals, hydrogens, units, picks);
      if (found.cost < (best?.cost ?? Infinity)) {
        best = found;
        bestPicks = [...picks];
      }
      return;
    }
    const options = unit.near
      .map(({ signal, cost: near }) => {
        const added = over(signal, unit.hydrogens) - over(signal, 0);
        return { signal, cost: near + COST.hydrogen * added };
      })
      .sort((a, b) => a.cost - b.cost);
    for (const { signal, cost: near } of options) {
      picks[k] = signal;
      filled[signal]! += unit.hydrogens;
      walk(k + 1, cost + near);
      filled[signal]! -= unit.hydrogens;
    }
    picks[k] = undefined;
    walk(k + 1, cost + unit.skip);
  };
  walk(0, 0);
  const price = (these: Picks) => settled(patterns, signals, hydrogens, units, these);
  if (steps <= mostSteps && best !== undefined) return { ...best, cutOff: false };
  // Bettering costs more than the search, so that a quick search goes without.
  const found = mostSteps < MOST_STEPS ? price(bestPicks) : improved(units, bestPicks, price);
  return { ...found, cutOff: !isPerfect(found) };
}
