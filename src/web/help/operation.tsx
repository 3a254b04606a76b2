import { Fragment } from 'react';
import type { Operation as Described } from './operations.ts';

/** As many as one takes in at a glance. */
const USUAL_HEADS = 6;

/** One operation: its name, how its sentences look, and one that can be taken as it stands. */
export function Operation({
  operation,
  asked,
}: {
  readonly operation: Described;
  /** Someone came here for this one. */
  readonly asked: boolean;
}) {
  const { kind, title, ways, heads } = operation;
  return (
    <section className="help-operation" aria-labelledby={kind} data-asked={asked}>
      <div className="help-name">
        <h3 id={kind} tabIndex={-1}>
          {title}
        </h3>
        {heads.length > 1 && <Heads heads={heads} />}
      </div>
      <div>
        {ways.map(({ about, forms, examples }) => (
          <Fragment key={about}>
            <p className="help-about">{about}</p>
            <ul className="help-forms">
              {forms.map((form) => (
                <li key={form}>{slotted(form)}</li>
              ))}
            </ul>
            {examples.map((example) => (
              <p key={example} className="help-example">
                <span className="spoken">For example: </span>
                {example}
              </p>
            ))}
          </Fragment>
        ))}
      </div>
    </section>
  );
}

/** What else a sentence may begin with; the rarer words on demand. */
function Heads({ heads }: { readonly heads: readonly string[] }) {
  if (heads.length <= USUAL_HEADS + 2) return <p className="help-heads">{heads.join(', ')}</p>;
  return (
    <details className="help-heads">
      <summary>
        {heads.slice(0, USUAL_HEADS).join(', ')} … and {heads.length - USUAL_HEADS} more
      </summary>
      {heads.slice(USUAL_HEADS).join(', ')}
    </details>
  );
}

/** "{vessel}" is a place to fill in. */
function slotted(form: string) {
  return form
    .split(/(\{[^}]*\})/)
    .map((piece, i) => (piece.startsWith('{') ? <var key={i}>{piece.slice(1, -1)}</var> : piece));
}
