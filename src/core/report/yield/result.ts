import { expanded, scale, standardUncertainty } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import type { RecordDiagnostic } from '../../record/run.ts';
import type { Named, ProductRole } from '../theory/theory.ts';
import type { YieldInput } from './linear.ts';
import type { YieldPolicy } from './policy.ts';
import type { WeighingKind } from './weighings.ts';

/** A percentage with its standard uncertainty and U = k·u. */
export interface Percent {
  readonly percent: number;
  readonly u_percent: number;
  readonly U_percent: number;
}

/** One weighing of a product. */
export interface YieldEntry {
  readonly step: string;
  readonly vessel: string;
  readonly kind: WeighingKind;
  readonly net_g: number;
  readonly netU_g: number;
  /** One unit of the last digit that was read, for printing. */
  readonly lastDigit_g: number;
  /** Absent where there is no theory to compare with. */
  readonly yield?: Percent;
}

export interface BudgetEntry {
  readonly id: string;
  readonly what: string;
  /** Of the variance, 0 to 1. */
  readonly share: number;
  readonly basis: YieldInput['basis'];
}

export interface TheoreticalYield {
  readonly mass_g: number;
  readonly u_g: number;
  readonly amount_mmol: number;
  /** What the theory rests on: the limiting reagent, or the basis that the document declares. */
  readonly basis: Named;
  readonly basis_mmol: number;
  /** The document says so, and something else runs out first. */
  readonly basisDeclared: boolean;
}

export interface ProductYield extends Named {
  readonly role: ProductRole;
  /** Not made but got back: the theory is what was charged of it. */
  readonly recovered: boolean;
  readonly entries: readonly YieldEntry[];
  /** What there is in the end: isolated, and the crops after it. null: not weighed. */
  readonly net_g: number | null;
  readonly theory: TheoreticalYield | null;
  readonly yield: Percent | null;
  readonly budget: readonly BudgetEntry[];
  readonly sentence: string;
}

export interface OverallYield extends Percent {
  /** Products weighed on the way, the first first. */
  readonly stages: readonly Named[];
  readonly basis?: Named;
  readonly said: readonly string[];
}

export interface YieldReport {
  readonly sentence: string;
  readonly k: number;
  /** The declared product first. */
  readonly products: readonly ProductYield[];
  /** Over all steps, where an intermediate was weighed on the way. */
  readonly overall: OverallYield | null;
  readonly findings: readonly RecordDiagnostic[];
  readonly assumed: readonly string[];
  readonly policy: YieldPolicy;
}

export function percentOf(fraction: Uncertain, policy: YieldPolicy): Percent {
  const percent = scale(fraction, 100);
  return {
    percent: percent.value,
    u_percent: standardUncertainty(percent),
    U_percent: expanded(percent, policy.k),
  };
}
