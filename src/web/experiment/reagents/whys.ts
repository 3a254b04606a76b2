import type { Derivation } from '../../../core/report/why/derivation.ts';
import { whyOf } from '../../../core/report/why/why.ts';
import type { ReagentRow } from '../../../core/report/reagents/reagents.ts';
import type { Enacted } from '../enacted.ts';
import type { Measure } from './rows.ts';

type Asked = Pick<Enacted, 'experiment' | 'plan'>;

const given = (derivation: Derivation | undefined): Derivation[] =>
  derivation === undefined ? [] : [derivation];

/** How a number of a row came about: charge by charge, or against what limits its reaction. */
export function whyRow({ experiment, plan }: Asked, row: ReagentRow, measure: Measure) {
  const { reaction } = row;
  if (measure === 'equivalents' && reaction !== null)
    return given(whyOf({ of: 'limiting', experiment, enactment: plan, reaction }));
  return row.uses.flatMap((use) => given(whyOf({ of: 'charge', enactment: plan, use })));
}

export const whyMolarMass = ({ plan }: Asked, substance: string) =>
  given(whyOf({ of: 'molarMass', enactment: plan, substance }));

export const whyTheory = ({ experiment, plan }: Asked, product: string) =>
  given(whyOf({ of: 'theory', experiment, enactment: plan, product }));
