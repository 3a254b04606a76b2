import type { Substance } from '../../chemistry/substance.ts';
import type { SubstanceTable } from '../../chemistry/substance.ts';
import type { Enactment } from '../../enact/enactment.ts';
import type { Subject, SubjectRole, Subjects } from '../../evidence/subject.ts';
import type { Experiment } from '../../experiment/step.ts';
import { reagentTable } from '../reagents/reagents.ts';
import type { ReagentRole } from '../reagents/role.ts';
import { literatureOf } from './literature.ts';

/** What a sample may still hold of each material, by what it was taken for. */
const ROLE: Readonly<Record<ReagentRole, SubjectRole>> = {
  reactant: 'startingMaterial',
  recovered: 'startingMaterial',
  catalyst: 'reagent',
  reagent: 'reagent',
  activator: 'reagent',
  'work-up': 'reagent',
  quench: 'reagent',
  'drying agent': 'reagent',
  'filter aid': 'reagent',
  solvent: 'solvent',
  wash: 'solvent',
  rinse: 'solvent',
  'extraction solvent': 'solvent',
  'recrystallisation solvent': 'solvent',
};

const hasCarbon = ({ composition }: Substance) => composition?.counts.has('C') ?? false;

/**
 * The substances of an experiment as the judges of evidence want them: the product, what it was
 * made from, what else was in the vessels. A reactant without carbon, or a liquid that is a solvent
 * too, is a reagent: no instrument here looks for it as starting material.
 */
export function subjectsOf(
  experiment: Experiment,
  enactment: Enactment,
  table: SubstanceTable,
): Subjects {
  const { rows, products } = reagentTable(experiment, enactment);
  const declared = experiment.products[0]?.substance ?? productOf(products, table);
  const others = new Map<string, Subject>();
  for (const row of rows) {
    const substance = table.byName.get(row.substance);
    if (substance === undefined || substance.id === declared?.id) continue;
    const role = ROLE[row.role];
    const shown = role === 'startingMaterial' && !hasCarbon(substance) ? 'reagent' : role;
    const known = others.get(substance.id);
    if (known === undefined || known.role !== 'startingMaterial')
      others.set(substance.id, { role: shown, substance, literature: literatureOf(substance) });
  }
  for (const { substance: id, role } of products) {
    const substance = table.byName.get(id);
    if (role === 'product' || substance === undefined || others.has(id) || !hasCarbon(substance))
      continue;
    others.set(id, { role: 'byProduct', substance, literature: literatureOf(substance) });
  }
  if (declared === undefined) return { others: [...others.values()] };
  const literature = literatureOf(declared, experiment.expectations);
  return {
    product: { role: 'product', substance: declared, literature },
    others: [...others.values()],
  };
}

function productOf(
  products: readonly { readonly substance: string; readonly role: string }[],
  table: SubstanceTable,
): Substance | undefined {
  const first = products.find(({ role }) => role === 'product');
  return first === undefined ? undefined : table.byName.get(first.substance);
}
