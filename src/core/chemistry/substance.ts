/** Substances: what is known of each, the built-in ones, and tables of them laid over one another. */
export { isCasNumber, makeSubstance } from './substance-make.ts';
export type {
  PhaseHint,
  State,
  Substance,
  SubstanceFacts,
  SubstanceMaking,
} from './substance-make.ts';
export { builtInSubstances } from './substance-rows.ts';
export { tableWith } from './substance-table.ts';
export type { SubstanceTable } from './substance-table.ts';
