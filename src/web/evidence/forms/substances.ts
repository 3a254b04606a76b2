import type { Subject, SubjectRole, Subjects } from '../../../core/evidence/subject.ts';
import type { Option } from './fields.tsx';

const ROLE: Readonly<Record<SubjectRole, string>> = {
  product: 'product',
  startingMaterial: 'starting material',
  reagent: 'reagent',
  solvent: 'solvent',
  byProduct: 'by-product',
};

function optionOf({ role, substance }: Subject): Option {
  return [substance.name, `${substance.name} (${ROLE[role]})`];
}

/** The substances of the experiment to choose from by name, the product first. */
export function substanceOptions({ product, others }: Subjects): readonly Option[] {
  const all = [...(product === undefined ? [] : [product]), ...others];
  const names = new Set<string>();
  return all
    .filter(({ substance: { name, composition } }) => {
      // Drying agents and salts give no peak and no spot
      if (composition !== undefined && !composition.counts.has('C')) return false;
      return !names.has(name) && names.add(name);
    })
    .map(optionOf);
}

/** The same, the product without a value: what an entry means that names no substance. */
export function productOrOptions({ product, others }: Subjects): readonly Option[] {
  const first: Option = ['', product === undefined ? 'the product' : optionOf(product)[1]];
  const rest = substanceOptions({ others });
  return [first, ...rest.filter(([name]) => name !== product?.substance.name)];
}
