import type { Experiment } from '../../experiment/step.ts';
import { multiply } from '../../quantity/uncertain.ts';
import { nameOf } from '../common/name.ts';
import { limitingOf } from '../theory/supply.ts';
import type { TheoryModel } from './model.ts';
import type { YieldPolicy } from './policy.ts';
import type { Judged } from './judge.ts';
import { percentOf } from './result.ts';
import type { OverallYield } from './result.ts';

/**
 * The yields of the stages multiplied, from the first weighed intermediate to the declared product.
 * The mass of an intermediate stands in two of them, upside down in one, and so nearly cancels;
 * that is why they are multiplied as values that know their measurements.
 */
export function overallOf(
  experiment: Experiment,
  products: readonly Judged[],
  model: TheoryModel,
  policy: YieldPolicy,
): OverallYield | null {
  const last = products.find((each) => each.role === 'product');
  if (last?.fraction === undefined) return null;
  const stages = [last];
  const said: string[] = [];
  let basis: string | undefined;
  let current: string | undefined = last.substance;
  const seen = new Set<string>();
  while (current !== undefined && !seen.has(current)) {
    seen.add(current);
    const step = feederOf(current, experiment, model);
    basis = step?.basis;
    current = step?.fed;
    const weighed = products.find((each) => each.substance === current);
    // What is only got back (acid, salt, acid again) is no stage of its own.
    const onTheWay = weighed?.final.some((each) => each.kind === 'intermediate') === true;
    if (weighed?.fraction === undefined || !onTheWay || stages.includes(weighed)) continue;
    stages.unshift(weighed);
    if (step?.fed !== step?.basis) {
      const name = nameOf(model.enactment, step?.basis ?? '');
      said.push(`${weighed.name} does not limit the step after it: ${name} does.`);
    }
  }
  if (stages.length < 2) return null;
  const fraction = stages.map((each) => each.fraction!).reduce(multiply);
  return {
    ...percentOf(fraction, policy),
    stages: stages.map(({ substance, name }) => ({ substance, name })),
    ...(basis === undefined
      ? {}
      : { basis: { substance: basis, name: nameOf(model.enactment, basis) } }),
    said,
  };
}

/** The reactant, of the reaction that forms a substance, which an earlier declared reaction forms. */
function feederOf(
  substance: string,
  experiment: Experiment,
  model: TheoryModel,
): { readonly basis: string | undefined; readonly fed: string | undefined } | undefined {
  const formed = (id: string): boolean =>
    experiment.reactions.some((each) => each.products.some((term) => term.substance.id === id));
  const reaction = model.reactions.find(({ supply }) =>
    supply.reaction.products.some((term) => term.substance.id === substance),
  );
  if (reaction === undefined) return undefined;
  const { supplies } = reaction.supply;
  const basis = reaction.basis?.supply.substance ?? limitingOf(supplies)?.substance;
  const fed =
    basis !== undefined && formed(basis)
      ? basis
      : supplies.find((each) => formed(each.substance))?.substance;
  return { basis, fed };
}
