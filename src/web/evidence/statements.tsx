import type { Agreement, Statement } from '../../core/evidence/statement.ts';
import { Why } from '../ui/why.tsx';

const AGREEMENT: Readonly<Record<Agreement, readonly [sign: string, word: string]>> = {
  agrees: ['✓', 'agrees'],
  disagrees: ['✕', 'does not agree'],
  cannotTell: ['?', 'cannot tell'],
};

const ORDER: Readonly<Record<Agreement, number>> = { disagrees: 0, agrees: 1, cannotTell: 2 };

/** What does not agree comes first; else in the judge's order. */
const byAgreement = (a: Statement, b: Statement): number => ORDER[a.agreement] - ORDER[b.agreement];

/** What one measurement says: each statement with what it cannot tell. */
export function Statements({
  statements,
  said,
}: {
  readonly statements: readonly Statement[];
  readonly said: (text: string) => string;
}) {
  if (statements.length === 0) return null;
  const ordered = statements.toSorted(byAgreement);
  // What several statements cannot tell alike is said once.
  const firstWith = new Map(ordered.toReversed().map((one) => [one.limits, one]));
  return (
    <ul className="evidence-statements">
      {ordered.map((statement) => {
        const { id, what, measured, expected, agreement, weight, says, limits } = statement;
        const [sign, word] = AGREEMENT[agreement];
        return (
          <li key={id} data-agreement={agreement}>
            <p className="evidence-says">
              <span className="evidence-sign" aria-hidden="true">
                {sign}
              </span>
              <span>
                {said(says)} <span className="spoken">({word})</span>
              </span>
            </p>
            <dl className="evidence-figures">
              <div>
                <dt>{what}</dt>
                <dd className="evidence-measured">
                  <Measured statement={statement} measured={said(measured)} said={said} />
                </dd>
              </div>
              {expected !== '' && (
                <div>
                  <dt>expected</dt>
                  <dd>{said(expected)}</dd>
                </div>
              )}
            </dl>
            <p className="evidence-limits quiet">
              {weight === 'weak' && 'Weak evidence. '}
              {firstWith.get(limits) === statement && said(limits)}
            </p>
          </li>
        );
      })}
    </ul>
  );
}

/** A figure that opens to its derivation, where it has one. */
function Measured({
  statement: { what, derivation = [] },
  measured,
  said,
}: {
  readonly statement: Statement;
  readonly measured: string;
  readonly said: (text: string) => string;
}) {
  if (derivation.length === 0) return measured;
  return (
    <Why figure={measured === '' ? 'how' : measured} title={what}>
      <dl className="evidence-derivation">
        {derivation.map(({ label, formula, value, source }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              {formula !== undefined && <span className="evidence-formula">{said(formula)}</span>}
              <span>{said(value)}</span>
              {source !== undefined && <span className="quiet">{source}</span>}
            </dd>
          </div>
        ))}
      </dl>
    </Why>
  );
}
