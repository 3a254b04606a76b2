import type { Basis } from '../../core/ledger/posting.ts';
import type { Layer } from './gauge.ts';

/** A flow sheet as the painters of this folder need it: words ready, places as column ids. */
export interface FlowPicture {
  readonly columns: readonly FlowColumn[];
  readonly rows: readonly FlowLine[];
}

export interface FlowColumn {
  readonly id: string;
  readonly name: string;
  /** "50 mL", or nothing. */
  readonly note: string;
}

export interface FlowLine {
  readonly step: string;
  readonly label: string;
  readonly time: string;
  readonly passages: readonly FlowPassage[];
  readonly states: readonly FlowState[];
  /** Weighings. */
  readonly remarks?: readonly FlowRemark[];
}

export interface FlowRemark {
  readonly vessel: string;
  readonly text: string;
  readonly basis: Basis;
}

export interface FlowPassage {
  /** Undefined: from the stock. */
  readonly from?: string;
  /** A vessel, or undefined: it leaves. */
  readonly to?: string;
  /** Where it leaves to: "air", "waste". */
  readonly leaves?: string;
  readonly label: string;
  readonly amount: string;
  readonly basis: Basis;
}

export interface FlowState {
  readonly vessel: string;
  /** "23 mL" */
  readonly amount: string;
  /** Of the capacity, 0 to 1; undefined where the capacity is not known. */
  readonly fill?: number;
  readonly layers: readonly Layer[];
}
