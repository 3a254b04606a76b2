import { useMemo } from 'react';
import { planAnswer } from '../../../core/report/answer/answer.ts';
import { grams, millimoles } from '../../../core/report/common/words.ts';
import { aboutHowLong } from '../../../core/report/answer/duration.ts';
import type { Enacted } from '../enacted.ts';
import { gravestOf } from '../findings/summary.ts';
import { useWords } from '../../words/use-words.ts';
import './short-answer.css';

/** On a narrow screen the answer stays in sight while the text is written, in one small line. */
export function ShortAnswer({ enacted }: { readonly enacted: Enacted }) {
  const { said } = useWords();
  const { experiment, plan, findings } = enacted;
  const { makes, duration_min } = useMemo(() => planAnswer(experiment, plan), [experiment, plan]);
  const amount =
    makes === undefined
      ? 'No product yet'
      : makes.mass_g === null
        ? millimoles(makes.amount_mmol)
        : grams(makes.mass_g);
  return (
    <div className="experiment-short screen-only">
      <span>
        <strong>{said(amount)}</strong>
        {duration_min > 0 && <>, {said(aboutHowLong(duration_min))}</>}
      </span>
      <a href="#flow-sheet">Flow sheet</a>
      <a href="#findings">{gravestOf(findings)}</a>
    </div>
  );
}
