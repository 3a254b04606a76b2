import type { Basis } from '../../core/ledger/posting.ts';
import { sentenceStart } from '../../core/quantity/sentence.ts';
import type { ProductYield, YieldEntry, YieldReport } from '../../core/report/yield/result.ts';
import type { Figures } from './figures.ts';

/** Which derivation a number of the answer opens. */
export type Asked = 'net' | 'yield' | 'theory';

export type AnswerPart =
  | { readonly kind: 'words'; readonly text: string }
  | {
      readonly kind: 'number';
      readonly text: string;
      readonly basis: Basis;
      readonly asks: Asked;
    };

const words = (text: string): AnswerPart => ({ kind: 'words', text });
const number = (text: string, basis: Basis, asks: Asked): AnswerPart => ({
  kind: 'number',
  text,
  basis,
  asks,
});

/** The answer in one sentence, with its numbers apart so that each can be asked where it is from. */
export function answerParts(product: ProductYield, figures: Figures): AnswerPart[] {
  const { name, net_g, entries, theory, recovered } = product;
  if (net_g !== null) return weighed(product, net_g, figures);
  const crude = entries.at(-1);
  if (crude !== undefined) return crudeOnly(product, crude, figures);
  const start = words(`${sentenceStart(name)} is not weighed yet`);
  if (theory === null) return [start, words('.')];
  const mass = number(figures.grams(theory.mass_g), 'planned', 'theory');
  return recovered
    ? [start, words('; '), mass, words(' of it was charged.')]
    : [start, words('; theory allows '), mass, words('.')];
}

function weighed(product: ProductYield, net_g: number, figures: Figures): AnswerPart[] {
  const counted = product.entries.filter(({ kind }) => kind !== 'crude' && kind !== 'earlier');
  const lastDigit_g = Math.max(...counted.map((each) => each.lastDigit_g));
  const mass = number(figures.mass(net_g, lastDigit_g), 'measured', 'net');
  const of = words(` of ${product.name}`);
  const crops = counted.length > 1 ? [words(` in ${counted.length} crops`)] : [];
  return [mass, of, ...crops, ...shareParts(product, product.yield ?? undefined, figures)];
}

function crudeOnly(product: ProductYield, crude: YieldEntry, figures: Figures): AnswerPart[] {
  const mass = number(figures.mass(crude.net_g, crude.lastDigit_g), 'measured', 'net');
  const of = words(` of crude ${product.name}`);
  return [mass, of, ...shareParts(product, crude.yield, figures)];
}

function shareParts(
  { theory, recovered }: ProductYield,
  percent: ProductYield['yield'] | undefined,
  figures: Figures,
): AnswerPart[] {
  if (percent === undefined || percent === null || theory === null)
    return [words('; there is no theory to compare it with.')];
  return [
    words(': '),
    number(figures.percent(percent), 'measured', 'yield'),
    words(' of the '),
    number(figures.grams(theory.mass_g), 'planned', 'theory'),
    words(recovered ? ' that was charged.' : ' that theory allows.'),
  ];
}

/** What to do next, where there is no yield yet; nothing where there is one. */
export function nextStep(report: YieldReport, entries: number): string | undefined {
  const [product] = report.products;
  if (product === undefined)
    return 'Name the product in the experiment, under a heading “## Product”; its yield is then counted.';
  if (entries === 0) return 'Nothing is entered yet. Open the bench record and weigh.';
  if (report.findings.some(({ code }) => code === 'tare-missing'))
    return 'The tare is missing: enter it in the bench record and the yield appears here.';
  if (product.net_g === null) return 'Enter tare and gross of the vessel that the product is in.';
  if (product.yield === null)
    return 'Write the reaction in the experiment, under a heading “## Reaction”, and give the amounts; theory follows from them.';
  return undefined;
}
