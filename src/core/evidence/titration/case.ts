import type { Uncertain } from '../../quantity/uncertain.ts';
import { measured } from '../../quantity/uncertain.ts';
import type { Subject, SubjectRole, Subjects } from '../subject.ts';
import { canReact } from './reacting-group.ts';
import type { Reckoning } from './reckon.ts';
import type { TitrationEntered } from './schema.ts';

/** A titration worked out, and whom it is about. */
export interface Case {
  readonly entered: TitrationEntered;
  readonly result: Reckoning;
  readonly analyte: string;
  readonly subject: Subject | undefined;
  readonly isProduct: boolean;
  readonly molarMass: Uncertain | undefined;
  /** Starting materials and by-products that take this titrant as well, by name. */
  readonly rivals: readonly string[];
}

const MAY_BE_LEFT: readonly SubjectRole[] = ['startingMaterial', 'byProduct', 'product'];

/** Whom a titration is about: the product, or the substance that was named. */
export function caseOf(entered: TitrationEntered, subjects: Subjects, result: Reckoning): Case {
  const wanted = entered.analyte?.trim().toLowerCase();
  const all = [...(subjects.product === undefined ? [] : [subjects.product]), ...subjects.others];
  const subject =
    wanted === undefined
      ? subjects.product
      : all.find(({ substance }) =>
          [substance.name, ...substance.synonyms].some((name) => name.toLowerCase() === wanted),
        );
  const mass = subject?.substance.molarMass_g_mol;
  return {
    entered,
    result,
    subject,
    analyte: subject?.substance.name ?? entered.analyte ?? 'the product',
    rivals: all
      .filter((other) => other !== subject && MAY_BE_LEFT.includes(other.role))
      .filter(
        ({ substance }) => substance.smiles !== undefined && canReact(substance, entered.kind),
      )
      .map(({ substance }) => substance.name),
    isProduct: wanted === undefined || (subject !== undefined && subject === subjects.product),
    molarMass:
      mass === undefined
        ? undefined
        : measured('molarMass', mass, subject?.substance.molarMassU_g_mol ?? 0),
  };
}
