import type { Amount, AnyAmount } from '../../quantity/amount.ts';
import type { Move } from '../move.ts';
import type { BathKind, MaterialUse, Portion, Ref, Slots, Step, VesselShape } from '../step.ts';
import type { RawMaterial } from '../sentence/materials.ts';
import type { RawRef, Role } from '../sentence/reference.ts';
import type { VerbKind } from './kind.ts';

/** What an argument of a sentence can be. */
export type ArgumentKind =
  | 'vessel'
  | 'ref'
  | 'refs'
  | 'materials'
  /** "(MgSO4)" */
  | 'bracketed'
  | 'time'
  | 'bareTime'
  /** What stands in brackets after the head: "dried (MgSO4)". */
  | 'bracket'
  | 'temperature'
  | 'pressure'
  | 'volume'
  | 'bath'
  | 'portions'
  | 'until'
  | 'endpoint'
  | 'acidity'
  | 'stream'
  | 'keep'
  | 'detail';

/** Places in a sentence that arguments fill, before names are resolved. */
export type RawSlot =
  | 'on'
  | 'into'
  | 'otherInto'
  | 'materials'
  /** A second list: "dissolve A in B", "activate A with B". */
  | 'with'
  | 'time'
  | 'over'
  | 'temperature'
  | 'bath'
  | 'portions'
  | 'until'
  | 'stream'
  | 'keep'
  | 'range'
  | 'detail';

export type Argument =
  | { readonly kind: 'vessel'; readonly phrase: string; readonly start: number }
  | { readonly kind: 'ref'; readonly ref: RawRef; readonly start: number }
  | { readonly kind: 'refs'; readonly refs: readonly RawRef[]; readonly start: number }
  | { readonly kind: 'materials'; readonly materials: readonly RawMaterial[] }
  | { readonly kind: 'amount'; readonly amount: AnyAmount }
  | {
      readonly kind: 'bath';
      readonly bath: BathKind;
      readonly temperature_C?: number;
      readonly figure?: Amount;
      readonly assumed?: string;
    }
  | { readonly kind: 'portions'; readonly count?: number }
  | { readonly kind: 'stream'; readonly stream: string }
  | {
      readonly kind: 'keep';
      readonly what: RawKeep;
      readonly vesselPhrase?: string;
      readonly start: number;
    }
  | { readonly kind: 'detail'; readonly text: string };

export type RawKeep = NonNullable<Slots['keep']>;

export interface RawSentence {
  readonly verb: VerbKind;
  /** The words that the verb was known by. */
  readonly head: string;
  readonly arguments: Readonly<Partial<Record<RawSlot, Argument>>>;
  readonly manner: readonly string[];
  /** Words that nothing explains, with their place. */
  readonly unexplained: readonly {
    readonly text: string;
    readonly start: number;
    readonly end: number;
  }[];
}

/** One clause: the words that open it, what may follow, and which slot that fills. */
export interface ClauseForm {
  readonly words: readonly string[];
  readonly kind: ArgumentKind;
  readonly slot: RawSlot;
}

/** What the words so far mean: which vessel is in hand, and what "the filtrate" is. */
export interface Context {
  /** The vessel that the last sentence left its matter in. */
  readonly focus: string | undefined;
  setFocus(vessel: string): void;
  /** The vessel that was in hand before this one: "add the solution to the mixture". */
  before(vessel: string): string | undefined;
  /** Where something lies that goes by a word of its name: "the naphthol solution". */
  called(noun: string): string | undefined;
  /** The id of the vessel that a phrase means; taken as implied where nobody declared it. */
  vessel(phrase: string, start: number): string;
  /** A vessel that a verb brings along: "filter", "filtrate", "extracts"; numbered when used again. */
  implied(name: string, shape: VesselShape, fresh?: boolean): string;
  ref(raw: RawRef, start: number): Ref;
  /** The same for a raw argument, or the vessel in hand. */
  refOf(argument: Argument | undefined): Ref | undefined;
  vesselOf(argument: Argument | undefined): string | undefined;
  role(role: Role): Ref | undefined;
  setRole(role: Role, ref: Ref): void;
  forget(role: Role): void;
  materials(argument: Argument | undefined, options?: { readonly excess?: boolean }): MaterialUse[];
  /** The id of the substance that a name means, where it is known. */
  substance(name: string): string | undefined;
  /** Where something lies that was put somewhere by its name, or made: "the benzil". */
  lies(name: string): Ref | undefined;
  /** Both layers are parted: where each of them now is. */
  setLayers(organic: Ref, aqueous: Ref): void;
  /** The organic layers that were kept apart, in the order in which they were. */
  organicLayers(): readonly string[];
  holdsDryingAgent(vessel: string): boolean;
  /** A solvent was taken off: the next one decides which layer floats. */
  solventGone(): void;
  /** Something new is in the vessel: "the lower layer" is no longer what was drawn off before. */
  disturb(): void;
  /** What an upper or a lower layer is, going by the density of the last organic solvent. */
  layerIs(layer: 'upper' | 'lower'): 'organic' | 'aqueous';
  shape(vessel: string): VesselShape;
  /** Where a material lies that was weighed out and not yet used. */
  aside(name: string): string | undefined;
  setAside(name: string, vessel: string): void;
  /** Remembers where materials went, so that "the zinc" can be found again. */
  placed(uses: readonly MaterialUse[], vessel: string): void;
  /** The contents of a vessel go elsewhere; metals and the like with the solid. */
  moved(from: string, liquidTo: string, solidTo?: string): void;
  remark(code: string, message: string, hint: string): void;
}

/** A unit operation: how it is written, what its words mean, what it does to matter. */
export interface Verb {
  readonly kind: VerbKind;
  /** One sentence for the help page. */
  readonly about: string;
  /** How its sentences look, for help, completion and the nearest-form hint. */
  readonly forms: readonly string[];
  readonly examples: readonly string[];
  /** What a sentence begins with, in the imperative. */
  readonly heads: readonly string[];
  /** Past participles that the usual rules do not give. */
  readonly participles?: Readonly<Record<string, string>>;
  /** What may follow the head directly, the likelier first. */
  readonly object?: readonly { readonly kind: ArgumentKind; readonly slot: RawSlot }[];
  readonly clauses: readonly ClauseForm[];
  /** Manner phrases of this verb alone. */
  readonly manners?: Readonly<Record<string, string>>;
  /** Whether a reading is one of this verb at all. */
  fits?(raw: RawSentence): boolean;
  /** Reads a sentence that is no imperative ("The reduction takes place"). */
  direct?(text: string): RawSentence | undefined;
  /** Another verb that the context shows is meant: "wash them", where they lie on a filter. */
  meant?(raw: RawSentence, context: Context): VerbKind | undefined;
  resolve(raw: RawSentence, context: Context): Slots;
  /** The sentence in our standard wording, from resolved slots. */
  print(slots: Slots, words: Wording): string;
  lower(step: Step): readonly Move[];
}

/** How resolved slots are put into words again. */
export interface Wording {
  vessel(id: string): string;
  ref(ref: Ref): string;
  /** A list; what lies in vessels already (`also`) stands after what comes from the stock. */
  materials(uses: readonly MaterialUse[], also?: readonly Ref[]): string;
  amount(amount: AnyAmount): string;
  /** The shared tail: over, at, for, until, manner. */
  tail(slots: Slots): string;
}

export const WHOLE: Portion = { kind: 'all' };

export function whole(vessel: string): Ref {
  return { vessel, portion: WHOLE };
}

/** The amount of a slot, where one was written. */
export function amountOf(argument: Argument | undefined): AnyAmount | undefined {
  return argument?.kind === 'amount' ? argument.amount : undefined;
}

export function figureOf(argument: Argument | undefined): Amount | undefined {
  const amount = amountOf(argument);
  return amount && amount.kind !== 'unquantified' ? amount : undefined;
}
