import { useParams } from 'react-router';
import { useState } from 'react';
import { queryClient, useExperiment } from '../api/queries.ts';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { ExperimentDesk } from './experiment-desk.tsx';
import { draftsIn } from './keep/drafts.ts';
import './experiment.css';

/** One experiment: its text beside what the text comes to. */
export function ExperimentPage() {
  const { id = '' } = useParams();
  return <OpenedExperiment key={id} id={id} />;
}

function OpenedExperiment({ id }: { readonly id: string }) {
  // What was heard on an earlier visit may be an older version; the text is begun from the newest.
  useState(() => queryClient.removeQueries({ queryKey: [`/api/experiments/${id}`] }));
  const opened = useExperiment(id);
  const unreached = opened.data === undefined && opened.isError;
  const draft = unreached ? draftsIn(localStorage).read(id) : undefined;
  // Without the server, what this device has kept of the text can still be worked on.
  if (draft !== undefined) return <ExperimentDesk id={id} head={undefined} />;
  if (opened.data !== undefined) return <ExperimentDesk id={id} head={opened.data} />;
  return (
    <Page title="Experiment">
      <Waiting of={opened}>{() => null}</Waiting>
    </Page>
  );
}
