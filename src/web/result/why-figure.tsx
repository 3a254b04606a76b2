import type { Basis } from '../../core/ledger/posting.ts';
import type { Derivation } from '../../core/report/why/derivation.ts';
import { DerivationView } from '../ui/derivation-view.tsx';
import { Figure } from '../ui/figure.tsx';
import { Why } from '../ui/why.tsx';
import type { Figures } from './figures.ts';

/** A number that opens to where it is from; what that is, is worked out only when it is asked. */
export function WhyFigure({
  text,
  basis,
  title,
  ask,
  figures,
}: {
  readonly text: string;
  readonly basis: Basis;
  /** What the number is, for whoever hears the derivation open. */
  readonly title: string;
  readonly ask: () => Derivation | undefined;
  readonly figures: Figures;
}) {
  return (
    <Why figure={<Figure basis={basis}>{text}</Figure>} title={title}>
      <Asked ask={ask} figures={figures} />
    </Why>
  );
}

function Asked({
  ask,
  figures,
}: {
  readonly ask: () => Derivation | undefined;
  readonly figures: Figures;
}) {
  const derivation = ask();
  if (derivation === undefined) return <p>It counts as it was entered.</p>;
  return <DerivationView of={derivation} inWords={figures.said} />;
}
