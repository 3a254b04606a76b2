import { Figure } from '../ui/figure.tsx';
import type { Derived } from './derived.ts';
import './derivation.css';

/** How a number came about: the formula, what was put in, where each is from, the postings. */
export function Derivation({ of }: { readonly of: Derived }) {
  return (
    <div className="result-derivation">
      <h3>{of.title}</h3>
      <p className="formula">{of.formula}</p>
      <dl>
        {of.lines.map((line) => (
          <div key={`${line.symbol} ${line.what}`}>
            <dt>
              {line.symbol !== '' && <i>{line.symbol}</i>} {line.what}
            </dt>
            <dd>
              <Figure basis={line.basis}>{line.value}</Figure>
            </dd>
            {line.source !== undefined && <dd className="source">{line.source}</dd>}
          </div>
        ))}
      </dl>
      {of.said.map((text) => (
        <p key={text}>{text}</p>
      ))}
      {of.postings.length > 0 && (
        <>
          <h4>In the ledger</h4>
          <ul>
            {of.postings.map((posting) => (
              <li key={`${posting.step} ${posting.from} ${posting.to} ${posting.basis}`}>
                <span className="quiet">step {posting.step}</span> {posting.from} → {posting.to}{' '}
                <Figure basis={posting.basis}>{posting.amount}</Figure>
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
