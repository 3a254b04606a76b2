import { useCallback, useState } from 'react';
import type { ExperimentOpened } from '../../wire/experiment.ts';
import type { Run } from '../../wire/run.ts';
import { askAgain } from '../api/queries.ts';
import { Page } from '../ui/page.tsx';
import { nameVersion } from './api.ts';
import { Answer } from './answer/answer.tsx';
import { BenchList } from './bench-records/bench-list.tsx';
import { StartBench } from './bench-records/start-bench.tsx';
import { ExperimentFindings } from './findings/experiment-findings.tsx';
import { draftsIn } from './keep/drafts.ts';
import { useKept } from './keep/use-kept.ts';
import { openDesk } from './open-desk.ts';
import type { Opened } from './open-desk.ts';
import { ShortAnswer } from './narrow/short-answer.tsx';
import { Panes } from './panes/panes.tsx';
import { PrintSheet } from './print/print-sheet.tsx';
import { Reagents } from './reagents/reagents.tsx';
import { Scheme } from './scheme/scheme.tsx';
import { AddSubstance } from './substance/add-substance.tsx';
import { useScene } from './use-scene.ts';
import { Vessels } from './vessels/vessels.tsx';
import { Moved } from './versions/moved.tsx';
import { VersionLine } from './versions/version-line.tsx';

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
  const [bench, setBench] = useState(false);
  const [unknown, setUnknown] = useState<string>();
  const askSubstance = useCallback(() => setUnknown(''), []);
  const { enacted } = scene;
  const { keeping } = kept;
  const name = async (given: string | null) => {
    const { number } = kept.base;
    await nameVersion(id, number, given);
    keeper.renamed({ ...kept.base, name: given });
    await askAgain(`/api/experiments/${id}`);
  };
  const goOnFromTheirs = () => {
    if (keeping.kind !== 'moved') return;
    const { text } = keeping.theirs;
    keeper.takeTheirs();
    desk.edit({ changes: { from: 0, to: desk.state().doc.length, insert: text } });
  };
  return (
    <Page title={enacted.experiment.title}>
      <div className="experiment">
        <div className="experiment-head">
          <div>
            <Answer enacted={enacted} />
            <VersionLine
              experiment={id}
              kept={kept}
              onNamed={name}
              benchOpen={bench}
              onBench={() => setBench(!bench)}
            />
          </div>
          <Scheme enacted={enacted} />
        </div>
        {bench && (
          <StartBench
            experiment={id}
            settled={keeper.settled}
            onStarted={(run: Run) => window.location.assign(`/bench/${run.id}`)}
          />
        )}
        {keeping.kind === 'moved' && (
          <Moved
            experiment={id}
            base={kept.base.number}
            moved={keeping}
            onMine={() => void keeper.keepMine()}
            onTheirs={goOnFromTheirs}
          />
        )}
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
