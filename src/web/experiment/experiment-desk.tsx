import { useCallback, useState } from 'react';
import type { ExperimentOpened } from '../../wire/experiment.ts';
import { Page } from '../ui/page.tsx';
import { BenchList } from './bench-records/bench-list.tsx';
import { ExperimentHead } from './experiment-head.tsx';
import { ExperimentFindings } from './findings/experiment-findings.tsx';
import { draftsIn } from './keep/drafts.ts';
import { useKept } from './keep/use-kept.ts';
import { ShortAnswer } from './narrow/short-answer.tsx';
import { openDesk } from './open-desk.ts';
import type { Opened } from './open-desk.ts';
import { Panes } from './panes/panes.tsx';
import { PrintSheet } from './print/print-sheet.tsx';
import { Reagents } from './reagents/reagents.tsx';
import { AddSubstance } from './substance/add-substance.tsx';
import { useScene } from './use-scene.ts';
import { Vessels } from './vessels/vessels.tsx';
import './experiment.css';

/** `head` undefined: the server is out of reach, and the draft of this device is worked on. */
export function ExperimentDesk({
  id,
  head,
}: {
  readonly id: string;
  readonly head: ExperimentOpened | undefined;
}) {
  // Opened once: a later answer of the server never changes the text under the person's hands.
  const [opened] = useState(() => openDesk(id, head, draftsIn(localStorage)));
  if (opened === undefined) return null;
  return <Laid id={id} opened={opened} />;
}

function Laid({ id, opened }: { readonly id: string; readonly opened: Opened }) {
  const { desk, keeper } = opened;
  const kept = useKept(desk, keeper);
  const scene = useScene(desk);
  const [unknown, setUnknown] = useState<string>();
  const askSubstance = useCallback(() => setUnknown(''), []);
  const { enacted } = scene;
  return (
    <Page title={enacted.experiment.title}>
      <div className="experiment">
        <ExperimentHead id={id} opened={opened} kept={kept} enacted={enacted} />
        <ShortAnswer enacted={enacted} />
        <Panes desk={desk} />
        <Vessels enacted={enacted} step={scene.step} />
        <PrintSheet enacted={enacted} kept={kept} />
        <Reagents desk={desk} enacted={enacted} onAdd={askSubstance} />
        <ExperimentFindings desk={desk} scene={scene} onUnknown={setUnknown} />
        {unknown !== undefined && (
          <AddSubstance
            key={unknown}
            desk={desk}
            name={unknown}
            onDone={() => setUnknown(undefined)}
          />
        )}
        <BenchList experiment={id} />
      </div>
    </Page>
  );
}
