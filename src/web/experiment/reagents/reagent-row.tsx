import { figuresIn } from '../../../core/report/reagents/reagents.ts';
import type { Edit } from '../../../core/experiment/edit/change.ts';
import type { Enacted } from '../enacted.ts';
import { unbroken, withDecimal } from '../../words/decimal.ts';
import type { Words } from '../../words/use-words.ts';
import { WhyNumber } from '../../ui/why-number.tsx';
import { AmountInput } from './amount-input.tsx';
import { basisOf, standingOf, valueOf } from './rows.ts';
import type { Measure, Row } from './rows.ts';
import { whyMolarMass, whyRow } from './whys.ts';

const MEASURES: readonly Measure[] = ['mass', 'volume', 'amount', 'equivalents'];

export function ReagentRowCells({
  row: { row, takings },
  words,
  enacted,
  write,
}: {
  readonly row: Row;
  readonly words: Words;
  readonly enacted: Enacted;
  readonly write: (use: string, amount: string) => Edit;
}) {
  return (
    <tr>
      <th scope="row">
        {unbroken(row.material)}
        {row.role !== 'reactant' && <span className="experiment-role"> {row.role}</span>}
      </th>
      <td className="experiment-written">
        {takings.map(({ use, step, written }) => (
          <span key={use} className="experiment-taking">
            <AmountInput
              label={`${row.material}, step ${step}`}
              written={withDecimal(written, words.decimal)}
              write={(amount) => write(use, amount)}
            />
            <span className="quiet">step {step}</span>
          </span>
        ))}
      </td>
      {MEASURES.map((measure) => {
        const value = valueOf(row, measure);
        return (
          <td key={measure} className="number">
            {value !== undefined && (
              <WhyNumber
                text={textOf(value, measure, figuresIn(row, measure), words)}
                basis={basisOf(row, measure)}
                title={`${row.material}: ${measure}`}
                ask={() => whyRow(enacted, row, measure)}
                words={words}
              />
            )}
          </td>
        );
      })}
      <td className="number">
        {row.molarMass_g_mol !== null && (
          <WhyNumber
            text={words.number(row.molarMass_g_mol, 5)}
            basis="planned"
            title={`Molar mass of ${row.name}`}
            ask={() => whyMolarMass(enacted, row.substance)}
            words={words}
          />
        )}
      </td>
      <td className={row.decides || row.limits ? 'experiment-limits' : undefined}>
        {standingOf(row, words.decimal)}
      </td>
    </tr>
  );
}

function textOf(
  value: number,
  measure: Measure,
  figures: number,
  { number, quantity }: Words,
): string {
  return measure === 'equivalents' ? number(value, figures) : quantity(value, measure, figures);
}
