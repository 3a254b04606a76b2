import { useEffect, useMemo, useState } from 'react';
import { Link, useLocation } from 'react-router';
import { useSettings } from '../api/queries.ts';
import { Page } from '../ui/page.tsx';
import { DocumentPart } from './document-part.tsx';
import { Operation } from './operation.tsx';
import { found, operationGroups } from './operations.ts';
import type { OperationGroup } from './operations.ts';
import './help.css';

/** Which sentences are understood, in the order of the work; `/help#extract` opens at one. */
export function HelpPage() {
  const terms = useSettings().data?.terms ?? 'uk';
  const groups = useMemo(() => operationGroups(terms), [terms]);
  const [question, setQuestion] = useState('');
  const asked = useAsked();
  const shown = found(groups, question);
  return (
    <Page title="Sentences">
      <div className="help">
        <h1>A procedure can name {countOf(groups)} operations, each in plain words.</h1>
        <p className="help-lead">
          A sentence begins with a verb of the trade, or has it in the passive (“was added”). Its
          clauses may stand in any order. <a href="#operations">To the operations</a>
        </p>
        <DocumentPart terms={terms} />
        <h2 id="operations" tabIndex={-1}>
          The operations
        </h2>
        <div className="help-search screen-only">
          <label htmlFor="help-search">Find</label>
          <input
            id="help-search"
            type="search"
            placeholder="a verb, or any word"
            value={question}
            onChange={({ target }) => setQuestion(target.value)}
          />
          <span role="status" className="quiet">
            {question.trim() === '' ? '' : `${countOf(shown)} of ${countOf(groups)}`}
          </span>
        </div>
        <div className="help-columns">
          <Index groups={shown} />
          <div>
            {shown.map(({ group, title, operations }) => (
              <section key={group} aria-labelledby={`group-${group}`}>
                <h2 id={`group-${group}`}>{title}</h2>
                {operations.map((operation) => (
                  <Operation
                    key={operation.kind}
                    operation={operation}
                    asked={operation.kind === asked}
                  />
                ))}
              </section>
            ))}
            {shown.length === 0 && (
              <p>
                No operation has these words. Try one word of them; a sentence that is not
                understood is kept and printed all the same.
              </p>
            )}
          </div>
        </div>
      </div>
    </Page>
  );
}

function countOf(groups: readonly OperationGroup[]): number {
  return groups.reduce((sum, { operations }) => sum + operations.length, 0);
}

function Index({ groups }: { readonly groups: readonly OperationGroup[] }) {
  return (
    <nav className="help-index screen-only" aria-label="Operations">
      {groups.map(({ group, title, operations }) => (
        <div key={group}>
          <p>{title}</p>
          <ul>
            {operations.map(({ kind, title: name }) => (
              <li key={kind}>
                <Link to={`#${kind}`}>{name}</Link>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </nav>
  );
}

/** The part that the address names; it is brought into sight and takes the focus. */
function useAsked(): string {
  const { hash, key } = useLocation();
  const asked = decodeURIComponent(hash.slice(1));
  useEffect(() => {
    const heading = asked === '' ? null : document.getElementById(asked);
    heading?.scrollIntoView({ block: 'start' });
    heading?.focus({ preventScroll: true });
  }, [asked, key]);
  return asked;
}
