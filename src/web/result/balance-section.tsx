import { useCallback } from 'react';
import type { SegmentKind } from '../../core/report/balance/balance.ts';
import { balanceBar } from '../../picture/balance-bar/balance-bar.ts';
import type { BarRoom } from '../../picture/balance-bar/layout.ts';
import { courseSentence, massOf } from '../../picture/balance-bar/words.ts';
import type { BarWording } from '../../picture/balance-bar/words.ts';
import { Figure } from '../ui/figure.tsx';
import type { Figures } from './figures.ts';
import { Picture } from './picture.tsx';
import type { ProductBalance } from './result-of.ts';
import './balance-section.css';

/** Where the theoretical mass of one product went: as a picture, a sentence and a table. */
export function BalanceSection({
  shown,
  figures,
  room,
  several,
  index,
}: {
  readonly shown: ProductBalance;
  readonly figures: Figures;
  /** Shared by all the bars of the page. */
  readonly room: BarRoom;
  /** More than one product is on the page, so that each has to be named. */
  readonly several: boolean;
  readonly index: number;
}) {
  const { product, balance, course } = shown;
  const { name, recovered } = product;
  const { decimal } = figures;
  const draw = useCallback(
    (width: number) =>
      balanceBar(course, { name, recovered, decimal, width, room, idPrefix: `balance-${index}` }),
    [course, name, recovered, decimal, room, index],
  );
  if (course.lostSight)
    return (
      <p>
        Where the rest of {name} went is not shown: by the sentences of the experiment it is
        elsewhere than in the vessel that was weighed.
      </p>
    );
  const wording: BarWording = { name, recovered, decimal };
  return (
    <figure className="result-balance">
      {several && <h3>{name}</h3>}
      <Picture draw={draw} />
      <figcaption>
        <p>
          {courseSentence(course, wording)} {ofWhat(recovered)}
        </p>
        <details className="screen-only">
          <summary>As a table</summary>
          <BalanceTable shown={{ product, balance, course }} figures={figures} />
        </details>
      </figcaption>
    </figure>
  );
}

/** The other percentages of the page compare with what the document plans. */
const ofWhat = (recovered: boolean) =>
  recovered
    ? 'Every percentage here is of what was charged.'
    : 'Every percentage here is of the theory for what this bench charged, not of the plan.';

const WHERE: Readonly<Record<SegmentKind, (where: string) => string>> = {
  isolated: (where) => `in the ${where}, weighed`,
  'used on': (where) => `used on in ${where}`,
  left: (where) => `left in the ${where}`,
  lost: (where) => `missing at the weighing in step ${where}`,
  waste: (where) => `in ${where} waste`,
  air: () => 'in the air',
  other: (where) => where,
  'not formed': () => 'not formed',
};

function BalanceTable({
  shown: { product, balance, course },
  figures,
}: {
  readonly shown: ProductBalance;
  readonly figures: Figures;
}) {
  const { segments, theory_g, unexplained_g, beside, name } = balance;
  const { recovered } = product;
  const mass = (mass_g: number) =>
    massOf(mass_g, course, { name, recovered, decimal: figures.decimal });
  const seen = segments.filter(({ percent }) => Math.abs(percent) >= 0.05);
  const others = [
    ...beside.filter(({ mass_g }) => mass_g > 0.0005).map((each) => ({ ...each, what: each.name })),
    ...(unexplained_g > 0.0005
      ? [{ what: `what cannot be ${name}: water, solvent, a wrong tare`, mass_g: unexplained_g }]
      : []),
  ];
  return (
    <div className="strip" tabIndex={0} role="region" aria-label={`${name}, material balance`}>
      <table>
        <caption>
          {product.recovered ? 'Charged' : 'Theory'}: {mass(theory_g)} of {name}
        </caption>
        <thead>
          <tr>
            <th scope="col">Where it is</th>
            <th scope="col" className="number">
              Mass
            </th>
            <th scope="col" className="number">
              Of {product.recovered ? 'what was charged' : 'theory'}
            </th>
          </tr>
        </thead>
        <tbody>
          {seen.map((segment) => (
            <tr key={`${segment.kind} ${segment.where}`}>
              <th scope="row">{WHERE[segment.kind](segment.where)}</th>
              <td className="number">
                <Figure basis={isWeighed(segment, product.net_g) ? 'measured' : 'assumed'}>
                  {mass(segment.mass_g)}
                </Figure>
              </td>
              <td className="number">{figures.plainPercent(segment.percent, 1)}</td>
            </tr>
          ))}
          {others.map(({ what, mass_g }) => (
            <tr key={what}>
              <th scope="row">weighed with it: {what}</th>
              <td className="number">
                <Figure basis="assumed">{mass(mass_g)}</Figure>
              </td>
              <td className="number" />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What the ledger has there is the net itself, and not an estimate beside something else. */
function isWeighed(
  { kind, mass_g }: { readonly kind: SegmentKind; readonly mass_g: number },
  net_g: number | null,
): boolean {
  return kind === 'isolated' && net_g !== null && Math.abs(mass_g - net_g) < 0.001 * net_g;
}
