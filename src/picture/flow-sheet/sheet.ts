import type { FlowState } from '../../core/report/flow/flow.ts';
import type { Edges, Frame } from './frame.ts';
import type { Glass } from './glass.ts';
import type { Words } from './items.ts';
import type { Slots } from './slots.ts';
import type { FlowWords } from './words.ts';

/** What every row is laid out with. */
export interface Sheet {
  readonly edges: Edges;
  readonly slots: Slots;
  readonly glasses: ReadonlyMap<string, Glass>;
  readonly names: ReadonlyMap<string, { readonly name: string; readonly note: string }>;
  readonly words: FlowWords | undefined;
  readonly selected: string | undefined;
}

/** One whose vessels are columns. */
export interface WideSheet extends Sheet {
  readonly frame: Frame;
}

/** What the rows before have shown. Changes as the rows are laid out one after the other. */
export interface Memory {
  readonly states: Map<string, FlowState>;
  /** The row in which a vessel was last called by its name. */
  readonly namedIn: Map<string, number>;
}

export const nothingShown = (): Memory => ({ states: new Map(), namedIn: new Map() });

/** Words with the height under which the next can stand. */
export interface Placed {
  readonly words: Words[];
  readonly bottom: number;
}
