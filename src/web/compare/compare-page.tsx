import { Link, useParams, useSearchParams } from 'react-router';
import type { ExperimentOpened, Version } from '../../wire/experiment.ts';
import { useExperiment, useVersions } from '../api/queries.ts';
import { useWords } from '../words/use-words.ts';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { answerOf } from './answer.ts';
import { Changes } from './changes.tsx';
import { Choosing } from './choosing.tsx';
import { chosen } from './choice.ts';
import { useTwoTexts } from './use-two-texts.ts';
import { WholeText } from './whole-text.tsx';
import './compare.css';

/** Two versions of an experiment: what follows from the change, then what was changed. */
export function ComparePage() {
  const { id = '' } = useParams();
  const experiment = useExperiment(id);
  const versions = useVersions(id);
  return (
    <Page title="What changed">
      <Waiting of={experiment}>
        {(opened) => (
          <Waiting of={versions}>{(all) => <Compared opened={opened} versions={all} />}</Waiting>
        )}
      </Waiting>
    </Page>
  );
}

function Compared({
  opened: { id, title },
  versions,
}: {
  readonly opened: ExperimentOpened;
  readonly versions: readonly Version[];
}) {
  const [asked, setAsked] = useSearchParams();
  const pair = chosen(versions, { from: asked.get('from'), to: asked.get('to') });
  const { both, missing } = useTwoTexts(id, pair.from, pair.to);
  return (
    <div className="compare">
      <p className="compare-of">
        <Link to={`/experiments/${id}`}>{title === '' ? 'Untitled experiment' : title}</Link>
        {`, from version ${pair.from} to version ${pair.to}`}
      </p>
      {versions.length === 1 ? (
        <>
          <h1>There is one version so far.</h1>
          <p>As soon as something is changed and kept, it can be compared with this one.</p>
        </>
      ) : both !== undefined ? (
        <Answer {...answerOf(both.difference, both)} />
      ) : (
        <Waiting of={missing}>{() => null}</Waiting>
      )}
      <Choosing
        experiment={id}
        versions={versions}
        pair={pair}
        choose={({ from, to }) =>
          setAsked({ from: String(from), to: String(to) }, { replace: true })
        }
      />
      {both !== undefined && versions.length > 1 && (
        <>
          <Changes difference={both.difference} />
          {both.from !== both.to && (
            <section aria-labelledby="text">
              <h2 id="text">The text</h2>
              <WholeText from={both.from} to={both.to} />
            </section>
          )}
        </>
      )}
    </div>
  );
}

function Answer({ first, rest }: { readonly first: string; readonly rest: readonly string[] }) {
  const { said } = useWords();
  return (
    <>
      <h1>{said(first)}</h1>
      {rest.length > 0 && (
        <ul className="compare-answer">
          {rest.map((sentence) => (
            <li key={sentence}>{said(sentence)}</li>
          ))}
        </ul>
      )}
    </>
  );
}
