import type { ReactNode } from 'react';
import type { Basis } from '../../core/ledger/posting.ts';
import './figure.css';

const SPOKEN: Readonly<Record<Basis, string>> = {
  planned: '',
  measured: ' (measured)',
  assumed: ' (assumed)',
};

/** A number wearing how it is known: planned plain, measured heavy and underlined, assumed italic. */
export function Figure({
  basis,
  children,
}: {
  readonly basis: Basis;
  readonly children: ReactNode;
}) {
  return (
    <span className="figure" data-basis={basis}>
      {children}
      {SPOKEN[basis] !== '' && <span className="spoken">{SPOKEN[basis]}</span>}
    </span>
  );
}
