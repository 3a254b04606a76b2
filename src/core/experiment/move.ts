import type { MaterialUse } from './step.ts';

export type PhaseName = 'solid' | 'organic' | 'aqueous' | 'vapour';

/** Which part of a vessel's contents a move takes. Every component goes in proportion. */
export type Selector =
  | { readonly kind: 'all' }
  | { readonly kind: 'fraction'; readonly fraction: number }
  | { readonly kind: 'volume'; readonly volume_mL: number }
  | { readonly kind: 'mass'; readonly mass_g: number }
  /** `liquid`: both liquid phases. `upper` and `lower` are decided by density when the move is made. */
  | {
      readonly kind: 'phase';
      readonly phase: PhaseName | 'liquid' | 'upper' | 'lower';
      /** No word where that phase is not there. */ readonly ifThere?: true;
    };

export type Whither =
  | { readonly kind: 'vessel'; readonly vessel: string }
  | { readonly kind: 'waste'; readonly stream: string }
  | { readonly kind: 'air' };

/** How a split sorts what a vessel holds into phases, before moves take the phases away. */
export type SplitRule =
  /** Two liquid layers in a funnel. */
  | { readonly rule: 'layers' }
  /** What a filter holds back. `keep` says what the author is after: crystals, or the liquid. */
  | { readonly rule: 'filter'; readonly keep: 'solid' | 'liquid' | 'both' }
  /** What leaves as vapour: the solvents, never the declared product while it boils higher than they do. */
  | {
      readonly rule: 'evaporate';
      readonly toDryness: boolean;
      readonly only?: readonly string[];
      readonly upTo_C?: number;
      /** down to this volume, or this share of what there is */ readonly leaving_mL?: number;
      readonly leavingShare?: number;
    }
  /** What comes over between two head temperatures, or with steam. */
  | {
      readonly rule: 'distil';
      readonly from_C?: number;
      readonly to_C?: number;
      readonly steam: boolean;
      readonly substance?: string;
    }
  /** Water bound by a drying agent that is already in the vessel. */
  | { readonly rule: 'dry' }
  /** The declared product (or the named substance) comes out as crystals. */
  | { readonly rule: 'crystallise' }
  | { readonly rule: 'sublime' }
  /** Water carried over to a trap at reflux. */
  | { readonly rule: 'azeotrope' };

/**
 * - wait: a declared reaction may run, all its reactants being there
 * - separation: the same, just before contents are parted, for what no wait came in time
 * - contact: fast side reactions (acid with base or carbonate) too
 * - activation, quench: those of metals, hydrides, acyl halides too
 * - stated: the sentence says that a reaction takes place here
 */
export type ReactTrigger = 'wait' | 'separation' | 'contact' | 'activation' | 'quench' | 'stated';

export type Observation =
  'tare' | 'gross' | 'net' | 'meltingRange' | 'spectrum' | 'tlc' | 'appearance' | 'temperature';

/** The six kernel moves; every verb lowers to a list of them. */
export type Move =
  | { readonly kind: 'open'; readonly vessel: string }
  /** Matter from the stock. `excess`: as much as the reaction asks for. */
  | {
      readonly kind: 'move';
      readonly from: 'stock';
      readonly use: MaterialUse;
      /** which repeat this is, of use.repeat */ readonly turn?: number;
      readonly to: Whither;
      readonly asGas?: boolean;
    }
  | {
      readonly kind: 'move';
      readonly from: 'vessel';
      readonly vessel: string;
      readonly take: Selector;
      readonly to: Whither;
      /** e.g. "extract", for the flow sheet */ readonly label?: string;
    }
  | { readonly kind: 'split'; readonly vessel: string; readonly by: SplitRule }
  | {
      readonly kind: 'react';
      readonly vessel: string;
      readonly trigger: ReactTrigger;
      readonly reaction?: string;
      readonly conversion?: number;
    }
  | {
      readonly kind: 'observe';
      readonly vessel: string;
      readonly observation: Observation;
      readonly detail?: string;
    }
  | {
      readonly kind: 'wait';
      readonly vessel: string;
      readonly time_min?: number;
      readonly temperature_C?: number;
      readonly heating: 'none' | 'warm' | 'reflux';
      readonly closed?: boolean;
      /** A wait that a reaction is meant to use (stir, reflux, hold at temperature), not one for cooling or settling. */
      readonly forReaction: boolean;
    };
