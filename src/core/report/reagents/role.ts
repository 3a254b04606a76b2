import type { Material } from '../../chemistry/material.ts';
import type { Substance } from '../../chemistry/substance.ts';
import type {
  MaterialUse,
  ProductDeclaration,
  ReactionDeclaration,
  Step,
} from '../../experiment/step.ts';
import type { VerbKind } from '../../experiment/verbs/kind.ts';

export type ReagentRole =
  | 'reactant'
  | 'recovered'
  | 'catalyst'
  | 'reagent'
  | 'solvent'
  | 'quench'
  | 'wash'
  | 'rinse'
  | 'extraction solvent'
  | 'recrystallisation solvent'
  | 'drying agent'
  | 'filter aid'
  | 'activator'
  | 'work-up';

export interface RoleQuestion {
  readonly use: MaterialUse;
  readonly step: Step;
  readonly reactions: readonly ReactionDeclaration[];
  readonly products: readonly ProductDeclaration[];
  /** Moles for each mole of what limits, all uses taken together; undefined where it has none. */
  readonly equivalents: number | undefined;
  readonly byVolume: boolean;
  /** After the last declared reaction has run and the work-up has begun. */
  readonly late: boolean;
}

/** What a verb takes a material for, where that does not depend on the reaction. */
const BY_VERB: Readonly<Partial<Record<VerbKind, ReagentRole>>> = {
  rinse: 'rinse',
  filter: 'filter aid',
  decant: 'rinse',
  washSolid: 'wash',
  washLayer: 'wash',
  dry: 'drying agent',
  recrystallise: 'recrystallisation solvent',
};

/** Of a reactant these are still reactants. */
const BY_VERB_UNLESS_REACTANT: Readonly<Partial<Record<VerbKind, ReagentRole>>> = {
  extract: 'extraction solvent',
  backExtract: 'extraction solvent',
  quench: 'quench',
  activate: 'activator',
  distil: 'work-up',
  separate: 'work-up',
  combine: 'work-up',
  evaporate: 'work-up',
};

/** Less than a quarter of the limiting reagent, and no reactant: taken for a catalyst (common practice). */
const CATALYST_EQUIVALENTS = 0.25;
/** A liquid in no equation is a medium from this excess on (common practice). */
const SOLVENT_EQUIVALENTS = 3;

const WORK_UP: ReadonlySet<VerbKind> = new Set<VerbKind>([
  'quench',
  'filter',
  'transfer',
  'extract',
  'backExtract',
  'separate',
  'washLayer',
  'decant',
  'evaporate',
  'distil',
]);

/** A sentence with which mixtures begin to be parted. */
export function beginsWorkUp(step: Step): boolean {
  return WORK_UP.has(step.verb);
}

/** Whether a use counts when it is asked how much of a material is there for the reaction. */
export function isForReaction(step: Step): boolean {
  return BY_VERB[step.verb] === undefined && BY_VERB_UNLESS_REACTANT[step.verb] === undefined;
}

/** What a material is there for: from its verb, from the declared reactions, from how much it is. */
export function roleOf(question: RoleQuestion): ReagentRole {
  const { use, step, reactions, products, equivalents, late } = question;
  const byVerb = BY_VERB[step.verb];
  if (byVerb !== undefined) return byVerb;
  const substance = use.material?.substance;
  const isIt = (term: { readonly substance: Substance }) => term.substance.id === substance?.id;
  const reacts = reactions.some((each) => each.reactants.some(isIt));
  const water = substance?.phase === 'water';
  // Water that takes part and is the medium too is a solvent to whoever fetches it.
  if (reacts && !water) return 'reactant';
  const otherwise = BY_VERB_UNLESS_REACTANT[step.verb];
  if (otherwise !== undefined) return otherwise;
  if (products.some(isIt)) return 'recovered';
  const neat = use.material !== undefined && isNeatLiquid(use.material);
  // "Pour the mixture onto ice": what is poured into ends the reaction, or makes the product crystallise.
  if (step.verb === 'transfer') return neat && !water ? 'solvent' : 'quench';
  const few = equivalents !== undefined && equivalents < CATALYST_EQUIVALENTS;
  if (neat && isMedium(substance!, question, few)) return 'solvent';
  if (late) return 'work-up';
  return few ? 'catalyst' : 'reagent';
}

/** 95 % ethanol is ethanol; 2 M hydrochloric acid is mostly water, and a reagent. */
function isNeatLiquid({ substance, composition }: Material): boolean {
  const share = composition.find((each) => each.substance.id === substance.id);
  return substance.state === 'liquid' && (share?.massFraction ?? 0) > 0.5;
}

/**
 * A liquid that no equation names is a solvent where there is much of it, and also where it is a
 * hydrocarbon or a halogenated one, or made of carbon, hydrogen and oxygen and poured by volume: liquid
 * amines, acid chlorides and mineral acids are reagents.
 */
function isMedium(substance: Substance, { equivalents, byVolume }: RoleQuestion, few: boolean) {
  if (substance.phase === 'water' || equivalents === undefined) return true;
  if (equivalents > SOLVENT_EQUIVALENTS) return true;
  return !few && isPlainOrganic(substance, byVolume);
}

const HALOGENS: ReadonlySet<string> = new Set(['F', 'Cl', 'Br', 'I']);

function isPlainOrganic({ composition }: Substance, oxygenToo: boolean): boolean {
  if (composition === undefined || !composition.counts.has('C')) return false;
  const others = [...composition.counts.keys()].filter(
    (symbol) => symbol !== 'C' && symbol !== 'H',
  );
  if (others.every((symbol) => HALOGENS.has(symbol))) return true;
  return oxygenToo && others.every((symbol) => symbol === 'O');
}
