import { useParams } from 'react-router';
import { lazy, startTransition, Suspense, useEffect, useState } from 'react';
import type { ExperimentOpened, ExperimentSummary } from '../../wire/experiment.ts';
import { queryClient, useDocumentAnswer, useExperiment } from '../api/queries.ts';
import { OpeningPage } from '../ui/opening.tsx';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { afterFrame } from './after-frame.ts';
import { deskProgram } from './desk-program.ts';
import { ExperimentOpening } from './experiment-opening.tsx';
import { draftsIn } from './keep/drafts.ts';

const ExperimentDesk = lazy(async () => ({ default: (await deskProgram()).ExperimentDesk }));

/** One experiment: its text beside what the text comes to. */
export function ExperimentPage() {
  const { id = '' } = useParams();
  return <OpenedExperiment key={id} id={id} />;
}

function OpenedExperiment({ id }: { readonly id: string }) {
  // What was heard on an earlier visit may be an older version; the text is begun from the newest.
  useState(() => queryClient.removeQueries({ queryKey: [`/api/experiments/${id}`] }));
  // A text of this device's own makes something else than what the server has.
  const [draft] = useState(() => draftsIn(localStorage).read(id));
  const opened = useExperiment(id);
  const [shelved] = useState(() => onShelf(id));
  const known = opened.data ?? shelved;
  if (opened.data === undefined && opened.isError)
    // Without the server, what this device has kept of the text can still be worked on.
    return draft === undefined ? (
      <Page title="Experiment">
        <Waiting of={opened}>{() => null}</Waiting>
      </Page>
    ) : (
      <Suspense fallback={<OpeningPage />}>
        <ExperimentDesk id={id} head={undefined} />
      </Suspense>
    );
  if (known === undefined) return <OpeningPage />;
  return <AnsweredFirst id={id} head={opened.data} known={known} asWritten={draft === undefined} />;
}

/** As the shelf has shown it. */
function onShelf(id: string): ExperimentSummary | undefined {
  const shelf = queryClient.getQueryData<ExperimentSummary[]>(['/api/experiments']);
  return shelf?.find((each) => each.id === id);
}

/**
 * The answer first: the desk, whose program and first reading take their time, is opened in the
 * frame after the one that shows what the experiment makes.
 */
function AnsweredFirst({
  id,
  head,
  known,
  asWritten,
}: {
  readonly id: string;
  readonly head: ExperimentOpened | undefined;
  readonly known: ExperimentSummary;
  /** Whether the text that will be opened is the one that the server has. */
  readonly asWritten: boolean;
}) {
  const [answered, setAnswered] = useState(false);
  const { data, isError } = useDocumentAnswer(known.head.document);
  const told = head !== undefined && (!asWritten || isError || data !== undefined);
  useEffect(() => {
    let left = false;
    if (told) afterFrame(() => !left && startTransition(() => setAnswered(true)));
    return () => {
      left = true;
    };
  }, [told]);
  const matter = asWritten ? (data?.matter ?? []) : [];
  const opening = <ExperimentOpening experiment={known} matter={matter} />;
  if (!answered || head === undefined) return opening;
  return (
    <Suspense fallback={opening}>
      <ExperimentDesk id={id} head={head} />
    </Suspense>
  );
}
