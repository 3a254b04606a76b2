import { inTerms } from '../ui/terms.ts';
import { EXAMPLE, PARTS, RULES } from './example.ts';
import type { Part } from './example.ts';

/** How a document is built, beside a whole one. */
export function DocumentPart({ terms }: { readonly terms: 'us' | 'uk' }) {
  return (
    <section aria-labelledby="document">
      <h2 id="document" tabIndex={-1}>
        How a document is built
      </h2>
      <div className="help-document">
        <pre className="help-paper" role="region" aria-label="A whole document" tabIndex={0}>
          {EXAMPLE.split(/(?<=\n)/).map((line, i) =>
            line.startsWith('#') ? <b key={i}>{line}</b> : line,
          )}
        </pre>
        <Parts parts={PARTS} terms={terms} />
      </div>
      <h2 id="sentence" tabIndex={-1}>
        What a sentence may say
      </h2>
      <Parts parts={RULES} terms={terms} wide />
    </section>
  );
}

function Parts({
  parts,
  terms,
  wide = false,
}: {
  readonly parts: readonly Part[];
  readonly terms: 'us' | 'uk';
  readonly wide?: boolean;
}) {
  return (
    <dl className="help-parts" data-wide={wide}>
      {parts.map(({ heading, about, example }) => (
        <div key={heading}>
          <dt>{heading}</dt>
          <dd>{inTerms(about, terms)}</dd>
          {example !== undefined && <dd className="help-example">{inTerms(example, terms)}</dd>}
        </div>
      ))}
    </dl>
  );
}
