import type {
  ClaimReport,
  ClaimVerdict,
} from '../../core/evidence/spectrum/claims/check-claims.ts';
import type { BandClaim } from '../../core/evidence/spectrum/schema.ts';

const VERDICT: Readonly<Record<ClaimVerdict, readonly [sign: string, word: string]>> = {
  stands: ['✓', 'stands'],
  doubtful: ['?', 'doubtful'],
  contradicted: ['✕', 'the trace says otherwise'],
  cannotTell: ['–', 'cannot be told'],
};

const placeText = ({ position_percm, high_percm }: BandClaim): string =>
  high_percm === undefined ? String(position_percm) : `${position_percm}–${high_percm}`;

/** A person's table of assignments, each line held against the trace, and the table as a whole. */
export function Claims({
  report,
  said,
}: {
  readonly report: ClaimReport;
  readonly said: (text: string) => string;
}) {
  return (
    <div className="evidence-claims">
      <h4>The table of assignments</h4>
      <table>
        <thead>
          <tr>
            <th scope="col">cm⁻¹</th>
            <th scope="col">Taken for</th>
            <th scope="col">Against the trace</th>
          </tr>
        </thead>
        <tbody>
          {report.claims.map(({ claim, verdict, says, findings }, i) => {
            const [sign, word] = VERDICT[verdict];
            return (
              <tr key={i}>
                <td>{said(placeText(claim))}</td>
                <td>
                  {claim.group}
                  {claim.shape !== undefined && <span className="quiet"> ({claim.shape})</span>}
                </td>
                <td>
                  <p>
                    <span aria-hidden="true">{sign} </span>
                    <strong>{word}</strong>. {said(says)}
                  </p>
                  {findings.map(({ id, says: found, right }) =>
                    found === says ? null : (
                      <p key={id} className="quiet">
                        {said(found)} {right !== undefined && said(right)}
                      </p>
                    ),
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {report.table.length > 0 && (
        <ul>
          {report.table.map(({ id, says, right }) => (
            <li key={id}>
              {said(says)} {right !== undefined && said(right)}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
