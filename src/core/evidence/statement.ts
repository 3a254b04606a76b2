import type { Diagnostic } from '../diagnostic.ts';

/** The kinds of measurement that evidence comes from. */
export const TECHNIQUES = [
  'infrared',
  'meltingRange',
  'boilingRange',
  'refractiveIndex',
  'density',
  'rotation',
  'thinLayer',
  'chromatogram',
  'titration',
  'chemicalTest',
  'nmr',
  'mass',
] as const;

export type Technique = (typeof TECHNIQUES)[number];

/** What a statement is about. */
export type Question =
  'identity' | 'purity' | 'startingMaterial' | 'contaminant' | 'change' | 'instrument';

/** `cannotTell`: the measurement does not decide it, and the limits say why. */
export type Agreement = 'agrees' | 'disagrees' | 'cannotTell';

/** How much the technique can carry on this question, however well the numbers agree. */
export type Weight = 'strong' | 'moderate' | 'weak';

/**
 * How pure, as far as one measurement says. `mass`, `mole` and `area` are shares of the sample
 * between 0 and 1; an area share is no mass share, and only `mass` (or `mole` with every impurity
 * named) may correct a yield.
 */
export interface PurityFigure {
  readonly basis: 'mass' | 'mole' | 'area';
  readonly kind: 'measured' | 'atMost' | 'atLeast';
  readonly share: number;
  /** Standard uncertainty of the share; 0 where only a bound is known. */
  readonly u: number;
  /** What the share is of, by name. */
  readonly of: string;
}

/** One line of a derivation: what it is, how it was worked out, what came out. */
export interface DerivationStep {
  readonly label: string;
  readonly formula?: string;
  readonly value: string;
  readonly source?: string;
}

/**
 * One result of one measurement, judged. All texts are for people, in plain words, numbers in them
 * with a decimal point and their unit; pages put in the decimal sign of the laboratory.
 */
export interface Statement {
  /** Unique within one judged measurement, stable from run to run: "melting-range". */
  readonly id: string;
  readonly technique: Technique;
  readonly about: Question;
  /** The substance that it speaks of, by name. */
  readonly substance?: string;
  /** "Melting range", "C=O stretch". */
  readonly what: string;
  /** "118.5–120.0 °C, corrected". */
  readonly measured: string;
  /** "122.4 °C (CRC Handbook)"; empty where nothing is expected. */
  readonly expected: string;
  readonly agreement: Agreement;
  readonly weight: Weight;
  /** A sentence with the outcome: what it means for this sample. */
  readonly says: string;
  /** What this cannot tell: a sentence, never empty. */
  readonly limits: string;
  readonly purity?: PurityFigure;
  readonly derivation?: readonly DerivationStep[];
}

/** A measurement judged: statements, and what is wrong with the measurement itself. */
export interface Judged {
  readonly statements: readonly Statement[];
  readonly diagnostics: readonly Diagnostic[];
}
