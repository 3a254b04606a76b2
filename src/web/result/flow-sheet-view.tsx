import { useCallback, useMemo } from 'react';
import { flowSheet } from '../../core/report/flow/flow.ts';
import { flowSheetParts } from '../../picture/flow-sheet/flow-sheet.ts';
import { inPlace } from '../../picture/flow-sheet/parts.ts';
import { flowWords } from '../../picture/flow-sheet/words.ts';
import '../../picture/flow-sheet/flow-sheet.css';
import { drawnWithDecimal } from '../words/decimal-parts.ts';
import type { DecimalSign } from './figures.ts';
import { Picture } from './picture.tsx';
import type { Result } from './result-of.ts';

/** The sheet in the colours of the page; on a phone its narrow form. */
export function FlowSheetView({
  result: { planned, run, enactment },
  sentence,
  version,
  decimal,
}: {
  readonly result: Result;
  readonly sentence: string;
  readonly version: string;
  readonly decimal: DecimalSign;
}) {
  const { experiment } = planned;
  const sheet = useMemo(() => flowSheet(experiment, enactment), [experiment, enactment]);
  const words = useMemo(() => flowWords(enactment, experiment, run), [enactment, experiment, run]);
  const draw = useCallback(
    (width: number) => {
      const { viewBox, defs, parts, ...size } = flowSheetParts(sheet, {
        width,
        words,
        answer: sentence,
        version,
        idPrefix: 'result-flow-sheet',
      });
      return (
        `<svg xmlns="http://www.w3.org/2000/svg" class="flow-sheet" role="list" aria-label="Steps" ` +
        `width="${size.width}" height="${size.height}" viewBox="${viewBox}">` +
        `<defs>${defs}</defs>${drawnWithDecimal(parts.map(inPlace).join(''), decimal)}</svg>`
      );
    },
    [sheet, words, sentence, version, decimal],
  );
  return <Picture draw={draw} />;
}
