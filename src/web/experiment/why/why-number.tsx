import type { Basis } from '../../../core/ledger/posting.ts';
import type { Derivation } from '../../../core/report/why/derivation.ts';
import { Figure } from '../../ui/figure.tsx';
import { Why } from '../../ui/why.tsx';
import type { Words } from '../words/use-words.ts';
import { DerivationView } from './derivation-view.tsx';

/** A number that opens to how it came about; what that is, is worked out only when it is asked. */
export function WhyNumber({
  text,
  basis,
  title,
  ask,
  words,
}: {
  readonly text: string;
  readonly basis: Basis;
  readonly title: string;
  readonly ask: () => readonly Derivation[];
  readonly words: Words;
}) {
  return (
    <Why figure={<Figure basis={basis}>{text}</Figure>} title={title}>
      <Answered ask={ask} words={words} />
    </Why>
  );
}

function Answered({
  ask,
  words,
}: {
  readonly ask: () => readonly Derivation[];
  readonly words: Words;
}) {
  const derivations = ask();
  if (derivations.length === 0) return <p>This is taken as it is written.</p>;
  return derivations.map((derivation, i) => (
    <DerivationView key={i} derivation={derivation} words={words} />
  ));
}
