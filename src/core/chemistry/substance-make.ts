import type { Composition } from './composition.ts';
import { sameComposition } from './composition.ts';
import { elementOf } from './element.ts';
import { readFormula } from './formula.ts';
import { printHill } from './hill.ts';
import { molarMass } from './molar-mass.ts';
import { readSmiles } from './smiles.ts';

/**
 * Where a substance goes when water and an organic layer share a vessel. `salt` is whatever
 * dissolves in water and is not drawn out of it (salts, mineral acids, ammonia, sugars); a gas of
 * that kind leaves only where there is no water. `insoluble` stays a solid.
 */
export type PhaseHint = 'gas' | 'water' | 'salt' | 'miscible' | 'organic' | 'insoluble';
/** State of the pure substance at 20 °C. */
export type State = 'solid' | 'liquid' | 'gas' | 'unknown';

export interface Substance {
  /** The name in lower case. */
  readonly id: string;
  readonly name: string;
  readonly synonyms: readonly string[];
  readonly smiles?: string;
  readonly formula?: string;
  /** Absent: known by mass only. */
  readonly composition?: Composition;
  readonly molarMass_g_mol?: number;
  readonly molarMassU_g_mol?: number;
  readonly cas?: string;
  readonly state: State;
  readonly density_g_mL?: number;
  readonly densityT_C?: number;
  readonly meltingPoint_C?: number;
  readonly boilingPoint_C?: number;
  readonly phase: PhaseHint;
  readonly origin: 'table' | 'document' | 'formula';
  readonly sources: Readonly<
    Partial<Record<'identity' | 'density' | 'meltingPoint' | 'boilingPoint' | 'hazards', string>>
  >;
  readonly hazardCodes: readonly string[];
}

/** What a document may say of a substance; only the name is needed. */
export interface SubstanceFacts {
  readonly name: string;
  readonly synonyms?: readonly string[];
  readonly smiles?: string;
  readonly formula?: string;
  readonly cas?: string;
  readonly state?: State;
  readonly density_g_mL?: number;
  readonly densityT_C?: number;
  readonly meltingPoint_C?: number;
  readonly boilingPoint_C?: number;
  readonly phase?: PhaseHint;
  readonly hazardCodes?: readonly string[];
  readonly origin?: Substance['origin'];
  /** Where the facts come from: one text for all of them, or one for each. */
  readonly source?: string | Substance['sources'];
}

export type SubstanceMaking =
  | { readonly ok: true; readonly substance: Substance }
  | { readonly ok: false; readonly message: string; readonly hint: string };

/** Whether the check digit of a CAS registry number is right (CAS: sum of digit times place, mod 10). */
export function isCasNumber(text: string): boolean {
  const match = /^(\d{2,7})-(\d{2})-(\d)$/.exec(text);
  if (match === null) return false;
  const digits = `${match[1]}${match[2]}`;
  let sum = 0;
  for (let i = 0; i < digits.length; i++) sum += Number(digits[digits.length - 1 - i]) * (i + 1);
  return sum % 10 === Number(match[3]);
}

export interface Drawn {
  readonly composition?: Composition;
  readonly ionic: boolean;
}

function drawn(facts: SubstanceFacts): Drawn | { message: string; hint: string } {
  const { name, smiles, formula } = facts;
  const fromFormula = formula === undefined ? undefined : readFormula(formula);
  if (fromFormula?.ok === false)
    return {
      message: `The formula of ${name} cannot be read: ${fromFormula.message}`,
      hint: fromFormula.hint ?? 'Write it as in C7H14O or CuSO4·5H2O.',
    };
  const fromSmiles = smiles === undefined ? undefined : readSmiles(smiles);
  if (fromSmiles?.ok === false)
    return {
      message: `The SMILES of ${name} cannot be read: ${fromSmiles.message}`,
      hint: 'Write it as in CC1CCC(=O)CC1, or give a formula instead.',
    };
  if (fromSmiles === undefined)
    return fromFormula === undefined
      ? { ionic: false }
      : { composition: fromFormula.composition, ionic: false };
  const { composition, ionic } = fromSmiles;
  if (fromFormula !== undefined && !sameComposition(composition, fromFormula.composition))
    return {
      message: `The SMILES of ${name} is ${printHill(composition)}, its formula ${formula}.`,
      hint: 'Leave out the one that is wrong.',
    };
  return { composition, ionic };
}

function isWater(composition: Composition): boolean {
  return printHill(composition) === 'H2O';
}

/** Metals whose salts nearly all dissolve. */
const SOLUBLE_METALS: ReadonlySet<string> = new Set(['Li', 'Na', 'K', 'Rb', 'Cs']);

/**
 * Carbonates, oxides, hydroxides, sulfides and phosphates of other metals than the alkali ones do
 * not dissolve in water, nor do silver halides (solubility rules of general chemistry: common
 * practice).
 */
function isInsolubleSalt({ counts, charge }: Composition): boolean {
  if (charge !== 0) return false;
  const symbols = [...counts.keys()];
  const metals = symbols.filter((symbol) => elementOf(symbol)?.isMetal === true);
  if (metals.length === 0 || metals.some((metal) => SOLUBLE_METALS.has(metal))) return false;
  const others = symbols.filter((symbol) => !metals.includes(symbol));
  const rest = others.sort().join('');
  const oxygen = counts.get('O') ?? 0;
  if (rest === 'CO') return oxygen === 3 * (counts.get('C') ?? 0);
  if (rest === 'HO') return (counts.get('H') ?? 0) === oxygen;
  if (metals.join('') === 'Ag') return /^(?:Cl|Br|I)$/.test(rest);
  return rest === 'O' || rest === 'S' || rest === 'OP';
}

function phaseOf(facts: SubstanceFacts, { composition, ionic }: Drawn): PhaseHint {
  if (facts.state === 'gas') return 'gas';
  if (composition === undefined) return facts.state === 'liquid' ? 'organic' : 'insoluble';
  if (isWater(composition)) return 'water';
  if (isInsolubleSalt(composition)) return 'insoluble';
  if (ionic) return 'salt';
  const symbols = [...composition.counts.keys()];
  if (symbols.includes('C')) return 'organic';
  const metals = symbols.filter((symbol) => elementOf(symbol)?.isMetal === true);
  const others = symbols.filter((symbol) => !metals.includes(symbol));
  if (metals.length > 0)
    return others.length === 0 || (others.length === 1 && others[0] === 'O') ? 'insoluble' : 'salt';
  return symbols.includes('H') ? 'salt' : 'organic';
}

function complaint(facts: SubstanceFacts): { message: string; hint: string } | undefined {
  if (facts.name.trim() === '')
    return { message: 'A substance without a name.', hint: 'Write its name first.' };
  if (facts.cas !== undefined && !isCasNumber(facts.cas))
    return {
      message: `${facts.cas} is not a CAS registry number: its last digit does not fit.`,
      hint: 'Look for two digits that changed places, or leave it out.',
    };
  const density = facts.density_g_mL;
  if (density !== undefined && !(density > 0 && density < 25))
    return {
      message: `A density of ${density} g/mL cannot be.`,
      hint: 'Densities are written in g/mL.',
    };
  return undefined;
}

/** Properties that are given and no others, so that an absent fact has no key. */
export function given<T extends object>(facts: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const found: Partial<T> = {};
  for (const key in facts) if (facts[key] !== undefined) found[key] = facts[key];
  return found as { [K in keyof T]?: Exclude<T[K], undefined> };
}

function sourcesOf(source: SubstanceFacts['source'], facts: SubstanceFacts): Substance['sources'] {
  if (source !== undefined && typeof source !== 'string') return source;
  const text = source ?? 'this document';
  return given({
    identity: text,
    density: facts.density_g_mL === undefined ? undefined : text,
    meltingPoint: facts.meltingPoint_C === undefined ? undefined : text,
    boilingPoint: facts.boilingPoint_C === undefined ? undefined : text,
  });
}

/**
 * A substance from what a document declares: its name, SMILES or formula (or neither: then it is
 * known by mass only), and what else is given. Molar mass follows from the composition. Where no
 * phase hint is given: gases are gas; metals and their oxides insoluble; ions salt; neutral
 * compounds of carbon organic.
 */
export function makeSubstance(facts: SubstanceFacts): SubstanceMaking {
  const wrong = complaint(facts);
  if (wrong !== undefined) return { ok: false, ...wrong };
  const structure = drawn(facts);
  if ('message' in structure) return { ok: false, ...structure };
  return fromStructure(facts, structure);
}

/** The rest of the making, once its structure is known; that of the tables is compiled into them. */
export function fromStructure(facts: SubstanceFacts, structure: Drawn): SubstanceMaking {
  const { composition } = structure;
  const mass = composition === undefined ? undefined : molarMass(composition);
  if (mass?.problem !== undefined)
    return {
      ok: false,
      message: mass.problem,
      hint: 'Declare it without a formula: by mass only.',
    };
  const name = facts.name.trim();
  const substance: Substance = {
    id: name.toLowerCase(),
    name,
    synonyms: facts.synonyms ?? [],
    state: facts.state ?? 'unknown',
    phase: facts.phase ?? phaseOf(facts, structure),
    origin: facts.origin ?? 'document',
    hazardCodes: facts.hazardCodes ?? [],
    sources: sourcesOf(facts.source, facts),
    ...given({
      smiles: facts.smiles,
      formula: facts.formula,
      composition,
      molarMass_g_mol: mass?.value_g_mol,
      molarMassU_g_mol: mass?.u_g_mol,
      cas: facts.cas,
      density_g_mL: facts.density_g_mL,
      densityT_C: facts.densityT_C,
      meltingPoint_C: facts.meltingPoint_C,
      boilingPoint_C: facts.boilingPoint_C,
    }),
  };
  return { ok: true, substance };
}
