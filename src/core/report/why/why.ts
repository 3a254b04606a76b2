import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import type { BenchRun } from '../../record/run.ts';
import { whyCharge } from './charge.ts';
import type { Derivation } from './derivation.ts';
import { whyGas } from './gas.ts';
import { whyMolarMass } from './molar-mass.ts';
import { whyLimiting, whyTheory } from './theory.ts';
import { whyUncertainty, whyYield } from './yield.ts';
import type { YieldWhy } from './yield.ts';

/** A number that is shown, and what it was reckoned from. */
export type WhyQuestion =
  | {
      readonly of: 'charge';
      readonly enactment: Enactment;
      /** The id of the use: "3.1". */
      readonly use: string;
      readonly run?: BenchRun;
      readonly instruments?: readonly Instrument[];
    }
  | {
      readonly of: 'molarMass';
      readonly enactment: Enactment;
      readonly substance: string;
    }
  | {
      readonly of: 'theory';
      readonly experiment: Experiment;
      readonly enactment: Enactment;
      readonly product: string;
    }
  | {
      readonly of: 'limiting';
      readonly experiment: Experiment;
      readonly enactment: Enactment;
      readonly reaction: string;
    }
  | {
      readonly of: 'gas';
      readonly enactment: Enactment;
      readonly substance: string;
      readonly step?: string;
    }
  | (YieldWhy & { readonly of: 'yield' })
  | (YieldWhy & { readonly of: 'uncertainty' });

type Asked<Of extends WhyQuestion['of']> = Extract<WhyQuestion, { readonly of: Of }>;

const ANSWERS: {
  readonly [Of in WhyQuestion['of']]: (question: Asked<Of>) => Derivation | undefined;
} = {
  charge: ({ enactment, use, run, instruments }) => whyCharge(enactment, use, run, instruments),
  molarMass: ({ enactment, substance }) => {
    const found = enactment.substances.get(substance);
    return found === undefined ? undefined : whyMolarMass(found);
  },
  theory: ({ experiment, enactment, product }) => whyTheory(experiment, enactment, product),
  limiting: ({ experiment, enactment, reaction }) => whyLimiting(experiment, enactment, reaction),
  gas: ({ enactment, substance, step }) => whyGas(enactment, substance, step),
  yield: whyYield,
  uncertainty: whyUncertainty,
};

/**
 * How a number came about: the formula in symbols, what was put in and where each of that is from,
 * the postings. undefined where there is no such number.
 */
export function whyOf(question: WhyQuestion): Derivation | undefined {
  const answer = ANSWERS[question.of] as (asked: WhyQuestion) => Derivation | undefined;
  return answer(question);
}
