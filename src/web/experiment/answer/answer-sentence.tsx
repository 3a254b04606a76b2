import type { PlanAnswer } from '../../../core/report/answer/answer.ts';
import { grams } from '../../../core/report/common/words.ts';
import { whyOf } from '../../../core/report/why/why.ts';
import type { Enacted } from '../enacted.ts';
import { WhyNumber } from '../../ui/why-number.tsx';
import { piecesOf } from '../../words/pieces.ts';
import { useWords } from '../../words/use-words.ts';

/** The sentence that answers first, its numbers open to the question why. */
export function AnswerSentence({
  sentence,
  answer,
  enacted: { experiment, plan },
}: {
  readonly sentence: string;
  readonly answer: PlanAnswer;
  readonly enacted: Enacted;
}) {
  const words = useWords();
  const { makes } = answer;
  const mass_g = makes?.mass_g ?? null;
  const mass = mass_g === null ? '' : grams(mass_g);
  const why = () => {
    const product = makes?.substance ?? '';
    const derivation = whyOf({ of: 'theory', experiment, enactment: plan, product });
    return derivation === undefined ? [] : [derivation];
  };
  return (
    <p className="experiment-first">
      {piecesOf(sentence, [mass]).map(({ text, number }, i) =>
        number === undefined ? (
          words.said(text)
        ) : (
          <WhyNumber
            key={i}
            text={words.said(text)}
            basis="planned"
            title={`Theoretical yield of ${makes?.name ?? ''}`}
            ask={why}
            words={words}
          />
        ),
      )}
    </p>
  );
}
