import type { Basis } from '../../core/ledger/posting.ts';
import type { Derivation, WhyBasis, WhyLine } from '../../core/report/why/derivation.ts';
import { Figure } from './figure.tsx';
import './derivation-view.css';

/** Out of a published table is as sure as written. */
const basisOf = (basis: WhyBasis): Basis => (basis === 'table' ? 'planned' : basis);

/** How a number came about: the formula, what was put in and where that is from, the postings. */
export function DerivationView({
  of: { title, formula, lines, result, said, postings, sources },
  inWords,
}: {
  readonly of: Derivation;
  /** A text of the core in the decimal sign of the laboratory. */
  readonly inWords: (text: string) => string;
}) {
  const shown = new Set(lines.flatMap(({ source }) => source ?? []));
  const further = sources.filter((source) => !shown.has(source));
  return (
    <div className="derivation-view">
      <h3>{inWords(title)}</h3>
      <p className="formula">{inWords(formula)}</p>
      <dl>
        {lines.map((line) => (
          <Line key={`${line.symbol} ${line.what} ${line.text}`} line={line} inWords={inWords} />
        ))}
        <Line line={result} inWords={inWords} isResult />
      </dl>
      {[...said, ...further].map((text) => (
        <p key={text}>{inWords(text)}</p>
      ))}
      {postings.length > 0 && (
        <>
          <h4>In the ledger</h4>
          <ul>
            {postings.map(({ step, from, to, name, text, basis }) => (
              <li key={`${step} ${from} ${to} ${name} ${basis}`}>
                <span className="quiet">Step {step}.</span> {name}, {from} → {to}:{' '}
                <Figure basis={basis}>{inWords(text)}</Figure>
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function Line({
  line: { symbol, what, text, value, basis, source },
  inWords,
  isResult = false,
}: {
  readonly line: WhyLine;
  readonly inWords: (text: string) => string;
  readonly isResult?: boolean;
}) {
  return (
    <div data-result={isResult || undefined}>
      <dt>
        <i>{symbol}</i> {inWords(what)}
      </dt>
      <dd>
        <Figure basis={basisOf(basis)}>{value === null ? '–' : inWords(text)}</Figure>
      </dd>
      {source !== undefined && <dd className="source">{inWords(source)}</dd>}
    </div>
  );
}
