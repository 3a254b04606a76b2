import { areaOf } from './partition.ts';
import type { ReadSpectrum } from './spectrum.ts';

/**
 * Residual solvents that have more of the area than all signals taken for the product: with them
 * nearly any product finds a signal in a place where it may have one.
 */
export function outweighedBy({
  residuals,
  entered,
  partition,
  identification,
}: ReadSpectrum): string | undefined {
  const area = (places: readonly number[]) =>
    places.reduce((sum, i) => sum + (areaOf(entered.signals[i]!) ?? 0), 0);
  const own = area((identification?.matches ?? []).map(({ signal }) => partition.open[signal]!));
  const foreign = area(residuals.flatMap((one) => one.signals.map(({ signal }) => signal)));
  return foreign > own ? residuals.map(({ substance }) => substance).join(' and ') : undefined;
}
