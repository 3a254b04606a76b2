import { useState } from 'react';
import type { Run } from '../../wire/run.ts';
import { askAgain } from '../api/queries.ts';
import { nameVersion } from '../api/deeds.ts';
import { Answer } from './answer/answer.tsx';
import { StartBench } from './bench-records/start-bench.tsx';
import type { Enacted } from './enacted.ts';
import type { Kept } from './keep/keeping.ts';
import type { Opened } from './open-desk.ts';
import { Scheme } from './scheme/scheme.tsx';
import { Moved } from './versions/moved.tsx';
import { VersionLine } from './versions/version-line.tsx';

/** The answer, which version it is of, and the reactions drawn. */
export function ExperimentHead({
  id,
  opened: { desk, keeper },
  kept,
  enacted,
}: {
  readonly id: string;
  readonly opened: Opened;
  readonly kept: Kept;
  readonly enacted: Enacted;
}) {
  const [bench, setBench] = useState(false);
  const { keeping } = kept;
  const name = async (given: string | null) => {
    keeper.renamed(await nameVersion(id, kept.base.number, given));
    await askAgain(`/api/experiments/${id}`);
  };
  const goOnFromTheirs = () => {
    if (keeping.kind !== 'moved') return;
    const { text } = keeping.theirs;
    keeper.takeTheirs();
    desk.edit({ changes: { from: 0, to: desk.state().doc.length, insert: text } });
  };
  return (
    <>
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
    </>
  );
}
