import type { Basis } from '../../core/ledger/posting.ts';
import type { Derivation } from '../../core/report/why/derivation.ts';
import { DerivationView } from './derivation-view.tsx';
import { Figure } from './figure.tsx';
import { Why } from './why.tsx';

/** Sets a text of the core in the decimal sign of the laboratory. */
export interface Sayer {
  readonly said: (text: string) => string;
}

/** None: the number is as somebody wrote or read it. */
export type Asked = () => Derivation | readonly Derivation[] | undefined;

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
  /** What the number is, for whoever hears the derivation open. */
  readonly title: string;
  readonly ask: Asked;
  readonly words: Sayer;
}) {
  return (
    <Why figure={<Figure basis={basis}>{text}</Figure>} title={title}>
      <Answered ask={ask} words={words} />
    </Why>
  );
}

function Answered({ ask, words }: { readonly ask: Asked; readonly words: Sayer }) {
  const derivations = [ask() ?? []].flat();
  if (derivations.length === 0) return <p>It counts as it was written down.</p>;
  return derivations.map((derivation, i) => (
    <DerivationView key={i} of={derivation} inWords={words.said} />
  ));
}
