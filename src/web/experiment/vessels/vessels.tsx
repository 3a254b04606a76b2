import { memo, useMemo } from 'react';
import { vesselsAt } from '../../../core/report/glass/glass.ts';
import type { Enacted } from '../enacted.ts';
import { useWords } from '../../words/use-words.ts';
import { glassPatterns, glassPictures } from './glass-pictures.ts';
import { VesselContents } from './vessel-contents.tsx';
import './vessels.css';

/** What every vessel holds after the step that is looked at, or at the end. */
export const Vessels = memo(function Vessels({
  enacted: { experiment, plan },
  step,
}: {
  readonly enacted: Enacted;
  readonly step: string | undefined;
}) {
  const words = useWords();
  const at = step ?? plan.trace.at(-1)?.step;
  const states = useMemo(() => {
    const all = at === undefined ? [] : vesselsAt(experiment, plan, at);
    return [...all].sort((a, b) => Number(b.touched) - Number(a.touched));
  }, [experiment, plan, at]);
  const pictures = useMemo(() => glassPictures(states), [states]);
  if (at === undefined) return null;
  const here = experiment.steps.find(({ id }) => id === at);
  // Elsewhere a vessel's temperature is only what it was when someone last said one.
  const tempered = step !== undefined && here?.slots.temperature !== undefined;
  return (
    <section className="experiment-vessels screen-only" aria-labelledby="vessels">
      <h2 id="vessels">
        {step === undefined ? 'In the glass at the end' : `In the glass after step ${at}`}
      </h2>
      {step !== undefined && here !== undefined && <p className="quiet">{words.said(here.text)}</p>}
      {states.length === 0 && <p>Nothing is in any vessel.</p>}
      <svg className="experiment-patterns" width="0" height="0" aria-hidden="true">
        <defs dangerouslySetInnerHTML={{ __html: glassPatterns() }} />
      </svg>
      <div className="experiment-glass">
        {states.map((state) => (
          <VesselContents
            key={state.vessel}
            state={state}
            picture={pictures.get(state.vessel)!}
            words={words}
            tempered={tempered && state.touched}
          />
        ))}
      </div>
    </section>
  );
});
