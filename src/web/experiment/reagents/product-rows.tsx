import type { ReagentTable } from '../../../core/report/reagents/reagents.ts';
import type { Enacted } from '../enacted.ts';
import { WhyNumber } from '../../ui/why-number.tsx';
import { unbroken } from '../../words/decimal.ts';
import type { Words } from '../../words/use-words.ts';
import { COLUMNS } from './column-heads.tsx';
import { whyMolarMass, whyTheory } from './whys.ts';

/** What forms, in theory. */
export function ProductRows({
  table,
  words,
  enacted,
}: {
  readonly table: ReagentTable;
  readonly words: Words;
  readonly enacted: Enacted;
}) {
  if (table.products.length === 0) return null;
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" colSpan={COLUMNS} className="experiment-group">
          Formed, in theory
        </th>
      </tr>
      {table.products.map((product) => (
        <tr key={product.substance}>
          <th scope="row">
            {unbroken(product.name)}
            {product.role !== 'product' && <span className="experiment-role"> {product.role}</span>}
          </th>
          <td />
          <td className="number">
            {product.mass_g !== null && (
              <WhyNumber
                text={words.quantity(product.mass_g, 'mass', 3)}
                basis="planned"
                title={`Theoretical yield of ${product.name}`}
                ask={() => whyTheory(enacted, product.substance)}
                words={words}
              />
            )}
          </td>
          <td />
          <td className="number">
            <WhyNumber
              text={words.quantity(product.amount_mmol, 'amount', 3)}
              basis="planned"
              title={`Theoretical yield of ${product.name}`}
              ask={() => whyTheory(enacted, product.substance)}
              words={words}
            />
          </td>
          <td />
          <td className="number">
            {product.molarMass_g_mol !== null && (
              <WhyNumber
                text={words.number(product.molarMass_g_mol, 5)}
                basis="planned"
                title={`Molar mass of ${product.name}`}
                ask={() => whyMolarMass(enacted, product.substance)}
                words={words}
              />
            )}
          </td>
          <td />
        </tr>
      ))}
    </tbody>
  );
}
