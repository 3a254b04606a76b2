import type { ProductYield } from '../../core/report/yield/result.ts';
import { answerParts } from './answer-parts.ts';
import type { Asked } from './answer-parts.ts';
import { derivedOf } from './derived.ts';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';
import { WhyNumber } from '../ui/why-number.tsx';

const TITLES: Readonly<Record<Asked, string>> = {
  net: 'Mass weighed',
  yield: 'Percent yield',
  theory: 'Theory',
};

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
  return answerParts(product, figures).map((part, i) =>
    part.kind === 'words' ? (
      part.text
    ) : (
      <WhyNumber
        key={`${i}`}
        text={part.text}
        basis={part.basis}
        title={`${TITLES[part.asks]}, ${product.name}`}
        ask={() => derivedOf(part.asks, product, result)}
        words={figures}
      />
    ),
  );
}
