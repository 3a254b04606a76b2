import type { Derivation, WhyBasis, WhyLine } from '../../../core/report/why/derivation.ts';
import type { Basis } from '../../../core/ledger/posting.ts';
import { Figure } from '../../ui/figure.tsx';
import type { Words } from '../words/use-words.ts';
import './why.css';

/** Out of a published table is as sure as written. */
const basisOf = (basis: WhyBasis): Basis => (basis === 'table' ? 'planned' : basis);

/** How a number came about: formula, what was put in and where it is from, what moved for it. */
export function DerivationView({
  derivation: { title, formula, lines, result, said, postings },
  words,
}: {
  readonly derivation: Derivation;
  readonly words: Words;
}) {
  return (
    <div className="experiment-why">
      <h3>{words.said(title)}</h3>
      <p className="experiment-formula">{words.said(formula)}</p>
      <table>
        <tbody>
          {lines.map((line) => (
            <LineRow key={`${line.symbol} ${line.what} ${line.text}`} line={line} words={words} />
          ))}
          <LineRow line={result} words={words} result />
        </tbody>
      </table>
      {said.map((sentence) => (
        <p key={sentence}>{words.said(sentence)}</p>
      ))}
      {postings.length > 0 && (
        <>
          <h4>In the ledger</h4>
          <ul>
            {postings.map(({ step, from, to, name, mass_g, basis }, i) => (
              <li key={i}>
                Step {step}: {name}{' '}
                <Figure basis={basis}>{words.quantity(mass_g, 'mass', 4)}</Figure>, {from} → {to}
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function LineRow({
  line: { symbol, what, text, value, basis, source },
  words,
  result = false,
}: {
  readonly line: WhyLine;
  readonly words: Words;
  readonly result?: boolean;
}) {
  return (
    <tr className={result ? 'experiment-result' : undefined}>
      <th scope="row">
        <i>{symbol}</i>
      </th>
      <td>
        {words.said(what)}
        {source !== undefined && <span className="experiment-source">{source}</span>}
      </td>
      <td className="number">
        <Figure basis={basisOf(basis)}>{value === null ? '–' : words.said(text)}</Figure>
      </td>
    </tr>
  );
}
