import { useMemo } from 'react';
import { planAnswer } from '../../../core/report/answer/answer.ts';
import type { Enacted } from '../enacted.ts';
import { useWords } from '../../words/use-words.ts';
import { AnswerSentence } from './answer-sentence.tsx';
import './answer.css';

/** What the experiment makes, how much, what limits, how long it takes: before anything else. */
export function Answer({ enacted }: { readonly enacted: Enacted }) {
  const { experiment, plan } = enacted;
  const { said } = useWords();
  const answer = useMemo(() => planAnswer(experiment, plan), [experiment, plan]);
  const [first, ...rest] = answer.sentences;
  const about = [experiment.header['Course'], experiment.header['Worked']].filter(Boolean);
  return (
    <header className="experiment-answer">
      {about.length > 0 && <p className="experiment-course">{about.join(' · ')}</p>}
      <h1>{experiment.title}</h1>
      {first !== undefined && <AnswerSentence sentence={first} answer={answer} enacted={enacted} />}
      {rest.length > 0 && <p className="experiment-more">{rest.map(said).join(' ')}</p>}
    </header>
  );
}
