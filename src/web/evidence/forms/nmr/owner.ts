import { NMR_SOLVENTS } from '../../../../core/evidence/nmr/solvents.ts';
import type { NmrSolvent } from '../../../../core/evidence/nmr/solvents.ts';
import type { NmrAssignment } from '../../../../core/evidence/nmr/schema.ts';
import type { SubjectRole, Subjects } from '../../../../core/evidence/subject.ts';
import type { DraftReader, Open } from '../draft.ts';
import type { Option } from '../fields.tsx';

const WORDS: Readonly<Record<NmrSolvent, string>> = {
  CDCl3: 'CDCl₃',
  'acetone-d6': 'acetone-d₆',
  'DMSO-d6': 'DMSO-d₆',
  C6D6: 'C₆D₆',
  CD3CN: 'CD₃CN',
  CD3OD: 'CD₃OD',
  D2O: 'D₂O',
  other: 'another',
};

export const SOLVENTS: readonly Option[] = NMR_SOLVENTS.map((one) => [one, WORDS[one]]);

/** Whose signal it may be, by what the choice holds. `named`: the name is asked for. */
interface Owner {
  readonly value: string;
  readonly words: string;
  readonly to: NmrAssignment['to'];
  readonly of?: string;
  readonly named?: 'needed' | 'asked';
}

const TO: Readonly<Record<SubjectRole, NmrAssignment['to']>> = {
  product: 'product',
  startingMaterial: 'startingMaterial',
  reagent: 'impurity',
  solvent: 'solvent',
  byProduct: 'impurity',
};

const ROLE: Readonly<Record<SubjectRole, string>> = {
  product: 'the product',
  startingMaterial: 'starting material',
  reagent: 'reagent',
  solvent: 'solvent of the experiment',
  byProduct: 'by-product',
};

/** The substances of the experiment, then what is in the tube beside them. */
export function ownersOf({ product, others }: Subjects): readonly Owner[] {
  const names = new Set(product === undefined ? [] : [product.substance.name]);
  const fromOthers = others
    .filter(({ substance: { name } }) => !names.has(name) && names.add(name))
    .map(({ role, substance: { name } }): Owner => {
      const to = TO[role];
      return { value: `${to}:${name}`, words: `${name} (${ROLE[role]})`, to, of: name };
    });
  const called = product === undefined ? 'the product' : `${product.substance.name} (the product)`;
  return [
    { value: 'product', words: called, to: 'product' },
    ...fromOthers,
    { value: 'solvent', words: 'the deuterated solvent, or TMS', to: 'solvent' },
    { value: 'standard', words: 'the internal standard', to: 'standard' },
    { value: 'isomer', words: 'an isomer of the product', to: 'isomer', named: 'needed' },
    { value: 'impurity', words: 'another substance', to: 'impurity', named: 'asked' },
  ];
}

export const NOBODY: Option = ['', 'not known'];

/** Whose the signal is, as the entry holds it. */
export function readOwner(row: DraftReader, subjects: Subjects): Open<NmrAssignment> | undefined {
  const chosen = row.text('owner');
  const owner = ownersOf(subjects).find(({ value }) => value === chosen);
  if (owner === undefined) return undefined;
  const own = owner.named === undefined ? undefined : row.text('of');
  if (owner.named === 'needed' && own === undefined) row.say('of', 'This is needed.');
  return { to: owner.to, of: owner.of ?? own, hydrogens: wholeNumber(row, 'hydrogens', 200) };
}

/** A count from 1 on. */
export function wholeNumber(row: DraftReader, field: string, most: number): number | undefined {
  const value = row.number(field, 1, most);
  if (value !== undefined && !Number.isInteger(value))
    row.say(field, 'A whole number is expected here.');
  return value;
}
