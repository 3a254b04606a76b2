import { Figure } from '../ui/figure.tsx';
import { Why } from '../ui/why.tsx';
import type { ProductYield } from '../../core/report/yield/result.ts';
import { answerParts } from './answer-parts.ts';
import type { AnswerPart } from './answer-parts.ts';
import { derivedOf } from './derived.ts';
import { Derivation } from './derivation.tsx';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';

/** A product's yield as a sentence; each of its numbers opens where it comes from. */
export function ProductSentence({
  product,
  result,
  figures,
}: {
  readonly product: ProductYield;
  readonly result: Result;
  readonly figures: Figures;
}) {
  return answerParts(product, figures).map((part, i) => (
    <Part key={`${i}`} {...{ part, product, result, figures }} />
  ));
}

function Part({
  part,
  product,
  result,
  figures,
}: {
  readonly part: AnswerPart;
  readonly product: ProductYield;
  readonly result: Result;
  readonly figures: Figures;
}) {
  if (part.kind === 'words') return <>{part.text}</>;
  const derived = derivedOf(part.asks, product, result, figures);
  return (
    <Why figure={<Figure basis={part.basis}>{part.text}</Figure>} title={derived.title}>
      <Derivation of={derived} />
    </Why>
  );
}
