import { useCallback, useMemo } from 'react';
import { flowSheet } from '../../core/report/flow/flow.ts';
import { flowSheetPicture } from '../../picture/flow-sheet/flow-sheet.ts';
import { flowWords } from '../../picture/flow-sheet/words.ts';
import { Picture } from './picture.tsx';
import type { Result } from './result-of.ts';

const NARROWEST_px = 900;

/** Drawn in the page's theme, never narrower than it can be read; the strip around it scrolls. */
export function FlowSheetView({
  result: { planned, enactment },
  sentence,
  version,
}: {
  readonly result: Result;
  readonly sentence: string;
  readonly version: string;
}) {
  const { experiment } = planned;
  const sheet = useMemo(() => flowSheet(experiment, enactment), [experiment, enactment]);
  const words = useMemo(() => flowWords(enactment, experiment), [enactment, experiment]);
  const draw = useCallback(
    (width: number) =>
      flowSheetPicture(sheet, {
        width: Math.max(width, NARROWEST_px),
        words,
        answer: sentence,
        version,
        theme: document.documentElement.dataset['theme'] === 'dark' ? 'dark' : 'paper',
      }),
    [sheet, words, sentence, version],
  );
  return (
    <div className="strip" tabIndex={0} role="region" aria-label="Flow sheet">
      <Picture draw={draw} />
    </div>
  );
}
