import type { MaterialUse, ReactionDeclaration, Step } from '../../experiment/step.ts';
import type { VerbKind } from '../../experiment/verbs/kind.ts';

export type ReagentRole =
  | 'reactant'
  | 'catalyst'
  | 'reagent'
  | 'solvent'
  | 'quench'
  | 'wash'
  | 'rinse'
  | 'extraction solvent'
  | 'recrystallisation solvent'
  | 'drying agent'
  | 'activator'
  | 'work-up';

/** What a verb takes a material for, where that does not depend on the reaction. */
const BY_VERB: Readonly<Partial<Record<VerbKind, ReagentRole>>> = {
  rinse: 'rinse',
  filter: 'rinse',
  transfer: 'rinse',
  decant: 'rinse',
  washSolid: 'wash',
  washLayer: 'wash',
  extract: 'extraction solvent',
  backExtract: 'extraction solvent',
  dry: 'drying agent',
  recrystallise: 'recrystallisation solvent',
};

/** Of a reactant these are still reactants. */
const BY_VERB_UNLESS_REACTANT: Readonly<Partial<Record<VerbKind, ReagentRole>>> = {
  quench: 'quench',
  activate: 'activator',
  distil: 'work-up',
  separate: 'work-up',
  combine: 'work-up',
  evaporate: 'work-up',
};

/** Less than a quarter of the limiting reagent, and no reactant: taken for a catalyst (common practice). */
const CATALYST_EQUIVALENTS = 0.25;

/** What a material is there for: from its verb, from the declared reactions, from how much it is. */
export function roleOf(
  use: MaterialUse,
  step: Step,
  reactions: readonly ReactionDeclaration[],
  equivalents: number | undefined,
): ReagentRole {
  const byVerb = BY_VERB[step.verb];
  if (byVerb !== undefined) return byVerb;
  const substance = use.material?.substance;
  if (substance !== undefined) {
    const reacts = reactions.some((each) =>
      each.reactants.some((term) => term.substance.id === substance.id),
    );
    // Water that takes part and is the medium too is a solvent to whoever fetches it.
    if (reacts && substance.phase !== 'water') return 'reactant';
  }
  const otherwise = BY_VERB_UNLESS_REACTANT[step.verb];
  if (otherwise !== undefined) return otherwise;
  // 95 % ethanol is ethanol; 2 M hydrochloric acid is mostly water, and a reagent.
  const share = use.material?.composition.find((each) => each.substance === substance);
  const wet = substance?.state === 'liquid' && (share?.massFraction ?? 0) > 0.5;
  const few = equivalents !== undefined && equivalents < CATALYST_EQUIVALENTS;
  if (few) return 'catalyst';
  return wet && (equivalents === undefined || equivalents > 3) ? 'solvent' : 'reagent';
}
