import { useEffect, useState } from 'react';
import type { ExperimentSummary } from '../../wire/experiment.ts';
import { useExperiments } from '../api/queries.ts';
import { deskProgram } from '../experiment/desk-program.ts';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { NewExperiment } from './new-experiment.tsx';
import { ShelfNotice } from './notice.tsx';
import { countText, HANDFUL, matching, newestFirst } from './order.ts';
import { ShelfRow } from './shelf-row.tsx';
import { useFileDrop } from './use-file-drop.ts';
import { useShelf } from './use-shelf.ts';
import type { ShelfDeeds } from './use-shelf.ts';
import { whenIdle } from './when-idle.ts';
import './shelf.css';

/** Every experiment, the one changed last at the top. */
export function ShelfPage() {
  useEffect(() => whenIdle(() => void deskProgram()), []);
  const experiments = useExperiments();
  return (
    <Page title="Experiments">
      <Waiting of={experiments}>{(all) => <Shelf all={newestFirst(all)} />}</Waiting>
    </Page>
  );
}

function Shelf({ all }: { readonly all: readonly ExperimentSummary[] }) {
  const deeds = useShelf();
  const held = useFileDrop((files) => void deeds.addFiles(files));
  const here = all.filter(({ putAway }) => !putAway);
  const away = all.filter(({ putAway }) => putAway);
  return (
    <div className="shelf" data-held={held}>
      <h1>{here.length === 0 ? 'No experiment here yet.' : `${countText(here)}.`}</h1>
      {here.length === 0 && (
        <p>
          An experiment is a handout in plain sentences. Start one from its headings, or add a text
          file that you have. <a href="/help">How the sentences are written</a>
        </p>
      )}
      <NewExperiment deeds={deeds} />
      <p className="quiet">
        {held ? 'Let go, and the file is added.' : 'A file can also be dropped on this page.'}
      </p>
      <ShelfNotice notice={deeds.notice} />
      <Searched all={here} deeds={deeds} />
      {away.length > 0 && (
        <details className="shelf-away">
          <summary>{away.length} put away</summary>
          <Rows all={away} deeds={deeds} />
        </details>
      )}
    </div>
  );
}

function Searched({
  all,
  deeds,
}: {
  readonly all: readonly ExperimentSummary[];
  readonly deeds: ShelfDeeds;
}) {
  const [question, setQuestion] = useState('');
  const found = matching(all, question);
  return (
    <>
      {all.length >= HANDFUL && (
        <div className="shelf-search">
          <label htmlFor="shelf-search">Find</label>
          <input
            id="shelf-search"
            type="search"
            placeholder="title or course"
            value={question}
            onChange={({ target }) => setQuestion(target.value)}
          />
          <span role="status" className="quiet">
            {question.trim() !== '' && `${found.length} of ${all.length}`}
          </span>
        </div>
      )}
      <Rows all={found} deeds={deeds} />
    </>
  );
}

function Rows({
  all,
  deeds,
}: {
  readonly all: readonly ExperimentSummary[];
  readonly deeds: ShelfDeeds;
}) {
  return (
    <ul className="shelf-rows">
      {all.map((experiment) => (
        <ShelfRow key={experiment.id} experiment={experiment} deeds={deeds} />
      ))}
    </ul>
  );
}
