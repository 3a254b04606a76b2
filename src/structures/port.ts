import type { Composition } from '../core/chemistry/composition.ts';

/** What a toolkit cannot do comes back as a value with its reason. */
export type Refused = { readonly ok: false; readonly message: string };

export interface DrawingOptions {
  /** px; the drawing is scaled to fit. Without both, it takes the size that its bonds ask for. */
  readonly width?: number;
  readonly height?: number;
  /** Light ink for a dark page. */
  readonly dark?: boolean;
  /** What a screen reader says; by default the SMILES. */
  readonly label?: string;
}

/** px, from the upper left corner of the drawing; the atoms in the order of the SMILES. */
export interface DrawnPlaces {
  readonly width: number;
  readonly height: number;
  readonly atoms: readonly { readonly x: number; readonly y: number }[];
}

/** One substance of a scheme: drawn from its SMILES, or written, where a drawing says less (NaBH4). */
export type SchemePart =
  | string
  | {
      readonly smiles?: string;
      /** Written in place of a drawing. */
      readonly text?: string;
      /** Under the drawing: a name, a number, a mass. */
      readonly caption?: string;
      readonly coefficient?: number;
    };

export interface Conditions {
  readonly above: readonly string[];
  readonly below: readonly string[];
}

export interface SchemeOptions {
  /** px; a longer scheme is broken into rows. */
  readonly maxWidth?: number;
  readonly dark?: boolean;
  readonly label?: string;
}

/** A substructure to look for. */
export interface Pattern {
  readonly id: string;
  readonly smarts: string;
  /** Patterns, before it in the list, that a structure must hold to hold this one; else not asked. */
  readonly refines: readonly string[];
}

/** Patterns held compiled: many questions to one structure in one reading of it. */
export interface PatternSet {
  /** By pattern id, of those that match: the atoms of every match, in the order of the pattern. */
  matches(smiles: string):
    | {
        readonly ok: true;
        readonly matches: Readonly<Record<string, readonly (readonly number[])[]>>;
      }
    | Refused;
}

/**
 * The structure toolkit as the rest of the program sees it. All drawings are SVG in one ink
 * (`currentColor`), need no font of their own, and carry no identifiers that could clash on a page.
 */
export interface StructureKit {
  /** Which toolkit, and its version. */
  readonly name: string;
  composition(smiles: string): { readonly ok: true; readonly composition: Composition } | Refused;
  /** The one SMILES that the toolkit writes for this structure, however it was written. */
  canonical(smiles: string): { readonly ok: true; readonly smiles: string } | Refused;
  inchi(
    smiles: string,
  ): { readonly ok: true; readonly inchi: string; readonly inchiKey: string } | Refused;
  drawing(
    smiles: string,
    options?: DrawingOptions,
  ): { readonly ok: true; readonly svg: string } | Refused;
  /** Where the atoms stand in the drawing that `drawing` gives without a size. */
  places(smiles: string): { readonly ok: true; readonly places: DrawnPlaces } | Refused;
  hasSubstructure(
    smiles: string,
    smarts: string,
  ): { readonly ok: true; readonly found: boolean } | Refused;
  /** Every match of the pattern: the indices of its atoms, in the order of the SMILES. */
  matches(
    smiles: string,
    smarts: string,
  ): { readonly ok: true; readonly matches: readonly (readonly number[])[] } | Refused;
  /** Compiles patterns once, for as long as the toolkit lives. */
  patternSet(
    patterns: readonly Pattern[],
  ): { readonly ok: true; readonly set: PatternSet } | Refused;
  schemeDrawing(
    reactants: readonly SchemePart[],
    products: readonly SchemePart[],
    conditions: Conditions,
    options?: SchemeOptions,
  ): { readonly ok: true; readonly svg: string } | Refused;
}
