import type { Diagnostic } from '../diagnostic.ts';
import type { Amount, AnyAmount } from '../quantity/amount.ts';
import type { Material } from '../chemistry/material.ts';
import type { Substance } from '../chemistry/substance.ts';
import type { VerbKind } from './verbs/kind.ts';

/** Where a piece of the text lies: offsets into the whole document, and the same as line and column. */
export interface Span {
  readonly start: number;
  readonly end: number;
  readonly line: number;
  readonly column: number;
}

/** One material taken from the stock, as a sentence says it: "ethanol (10 mL, 171 mmol)". */
export interface MaterialUse {
  /** Unique in the document: the step's id, a dot, and the place in the sentence ("3.1"). */
  readonly id: string;
  /** As written, without its amounts. */
  readonly name: string;
  /** Absent where the name is not known; the use is then kept but moves no matter. */
  readonly material?: Material;
  /** Everything that the sentence says of how much: mass, volume, mmol, equivalents, in its order. */
  readonly amounts: readonly AnyAmount[];
  readonly span: Span;
  /** "1.12 g" written for each of two portions, "3 × 10 mL": how often it is taken. */
  readonly repeat: number;
}

/** How much of what a vessel holds is meant. */
export type Portion =
  | { readonly kind: 'all' }
  | { readonly kind: 'fraction'; readonly fraction: number }
  | { readonly kind: 'amount'; readonly amount: Amount }
  | {
      readonly kind: 'phase';
      readonly phase: 'solid' | 'liquid' | 'organic' | 'aqueous' | 'upper' | 'lower';
    };

/** A vessel, or what is meant of its contents. */
export interface Ref {
  readonly vessel: string;
  readonly portion: Portion;
}

export type BathKind =
  | 'ice'
  | 'ice-salt'
  | 'dry-ice'
  | 'water'
  | 'oil'
  | 'sand'
  | 'steam'
  | 'block'
  | 'mantle'
  | 'flame'
  | 'air';

/** The words of a sentence, sorted. Which of them a verb uses is said in its own file. */
export interface Slots {
  /** From the stock. */
  readonly materials?: readonly MaterialUse[];
  /** What is acted on. Several only for `combine`. */
  readonly on?: readonly Ref[];
  /** Where matter goes. */
  readonly into?: string;
  /** Where the other part goes, where a verb parts matter in two (filtrate, mother liquor, lower layer). */
  readonly otherInto?: string;
  readonly keep?: 'solid' | 'liquid' | 'both' | 'organic' | 'aqueous' | 'upper' | 'lower';
  readonly time?: AnyAmount;
  readonly over?: AnyAmount;
  readonly temperature?: Amount;
  readonly bath?: BathKind;
  readonly portions?: number;
  readonly until?: AnyAmount;
  /** The volume that an evaporation leaves. */
  readonly leaves?: Amount;
  readonly stream?: string;
  readonly repeat?: number;
  /** dropwise, slowly, in portions, with stirring, under nitrogen, gravity, vacuum, Dean-Stark ... as the verb files name them */
  readonly manner: readonly string[];
  /** Free words that belong to an observation ("of the product in CDCl3"), or that nothing explains. */
  readonly detail?: string;
}

export interface Step {
  /** Its number in the document, and a letter for the second and later sentences of one item: "7", "7b". */
  readonly id: string;
  readonly verb: VerbKind;
  readonly slots: Slots;
  readonly text: string;
  readonly span: Span;
  /** The sub-heading that it stands under. */
  readonly part?: string;
}

export interface VesselDeclaration {
  readonly id: string;
  readonly name: string;
  /** round-bottom flask, separatory funnel, conical flask, beaker ... in our own list of shapes */
  readonly shape: VesselShape;
  readonly capacity_mL?: number;
  readonly tared: boolean;
  /** `written` under Vessels; `sentence`: with its size in a sentence; `implied`: by a verb or by its bare name. */
  readonly origin: 'written' | 'sentence' | 'implied';
  readonly span: Span;
}

export type VesselShape =
  | 'round-bottom flask'
  | 'conical flask'
  | 'separatory funnel'
  | 'addition funnel'
  | 'beaker'
  | 'test tube'
  | 'vial'
  | 'cylinder'
  | 'filter'
  | 'filter flask'
  | 'dish'
  | 'trap'
  | 'bottle'
  | 'other';

export interface ReactionTerm {
  readonly coefficient: number;
  readonly substance: Substance;
  readonly name: string;
}

/** A declared reaction, balanced as far as it can be. */
export interface ReactionDeclaration {
  /** "reaction 1", or the name given before a colon. */
  readonly id: string;
  readonly text: string;
  readonly reactants: readonly ReactionTerm[];
  readonly products: readonly ReactionTerm[];
  /** `open`: the equation leaves matter out (schematic); the rest is drawn from an account of its own. */
  readonly balance: 'written' | 'found' | 'open';
  /** `[O]` or `[H]` stands in the equation: an oxidant or a reductant delivers it. */
  readonly delivered?: 'O' | 'H';
  /** Conversion of the limiting reagent, 0 to 1; 1 where nothing is said. */
  readonly conversion: number;
  /** The reactant that yields are based on, where the author says so: a substance id. */
  readonly basis?: string;
  readonly span: Span;
}

export interface ProductDeclaration {
  readonly substance: Substance;
  readonly name: string;
  readonly span: Span;
}

/** A line of the document that is prose, or a sentence that is not understood: kept, in its place. */
export interface Note {
  readonly text: string;
  readonly span: Span;
  readonly section: string;
  /** In the procedure: the id of the step that it comes after. */
  readonly after?: string;
}

export interface Experiment {
  readonly title: string;
  /** "Course", "Period", "Worked": the lines "Key: value" below the title. */
  readonly header: Readonly<Record<string, string>>;
  readonly reactions: readonly ReactionDeclaration[];
  readonly substances: readonly Substance[];
  readonly vessels: readonly VesselDeclaration[];
  readonly steps: readonly Step[];
  readonly products: readonly ProductDeclaration[];
  /** The reactant that the yield is counted on, where the Product section says so. */
  readonly basis?: string;
  /** Lines "Key: value" of the Product section that are not the product or its basis. */
  readonly expectations: Readonly<Record<string, string>>;
  readonly notes: readonly Note[];
  readonly diagnostics: readonly Diagnostic[];
}
