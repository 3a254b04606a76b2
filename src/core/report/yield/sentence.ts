import { THIN_SPACE } from '../../quantity/print.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import type { YieldPolicy } from './policy.ts';
import type { Percent, ProductYield, YieldEntry } from './result.ts';

/** As many decimals of a gram as were read. */
export function massText(mass_g: number, lastDigit_g: number): string {
  const decimals = Math.min(6, Math.max(0, Math.round(-Math.log10(lastDigit_g))));
  return `${mass_g.toFixed(Number.isFinite(decimals) ? decimals : 3)}${THIN_SPACE}g`;
}

/**
 * "78.3 ± 0.3": one decimal, as yields are written; none where U is 10 or more, two where U would
 * round to nothing.
 */
export function percentText({ percent, U_percent }: Percent): string {
  const decimals = U_percent >= 10 ? 0 : U_percent >= 0.05 || U_percent === 0 ? 1 : 2;
  const value = percent.toFixed(decimals).replace('-', '\u2212');
  const spread = U_percent.toFixed(decimals);
  return U_percent === 0 ? value : `${value} ± ${spread}`;
}

/** "0.894 g of 4-methylcyclohexanol: 78.3 ± 0.3 % of theory (k = 2)." */
export function productSentence(
  product: Omit<ProductYield, 'sentence'>,
  policy: YieldPolicy,
): string {
  const { name, net_g, entries } = product;
  if (net_g === null) {
    const crude = entries.at(-1);
    return crude === undefined
      ? `${sentenceStart(name)} has not been weighed.`
      : `${amountOf(crude.net_g, entries, name)}, crude${share(crude.yield, product, policy)}.`;
  }
  const crops = entries.filter((each) => each.kind !== 'crude' && each.kind !== 'earlier');
  const parts =
    crops.length > 1
      ? ` (${crops.map((each) => massText(each.net_g, each.lastDigit_g)).join(' + ')})`
      : '';
  return `${amountOf(net_g, crops, name)}${parts}${share(product.yield ?? undefined, product, policy)}.`;
}

function amountOf(net_g: number, entries: readonly YieldEntry[], name: string): string {
  const lastDigit = Math.max(...entries.map((each) => each.lastDigit_g));
  return `${massText(net_g, lastDigit)} of ${name}`;
}

function share(
  percent: Percent | undefined,
  { recovered }: Omit<ProductYield, 'sentence'>,
  policy: YieldPolicy,
): string {
  if (percent === undefined) return '; there is no theory to compare it with';
  const of = recovered ? 'recovered' : 'of theory';
  return `: ${percentText(percent)}${THIN_SPACE}% ${of} (k = ${policy.k})`;
}
