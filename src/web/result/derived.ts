import { derivation, lineOf } from '../../core/report/why/derivation.ts';
import type { Derivation } from '../../core/report/why/derivation.ts';
import { postingsOf } from '../../core/report/why/postings.ts';
import { readingLines } from '../../core/report/why/readings.ts';
import { whyOf } from '../../core/report/why/why.ts';
import { figuresOfSum } from '../../core/report/common/figures.ts';
import { vesselOf } from '../../core/report/common/name.ts';
import type { RunNet } from '../../core/record/run.ts';
import type { ProductYield } from '../../core/report/yield/result.ts';
import type { Asked } from './answer-parts.ts';
import type { EnteredRow } from './entered.ts';
import { netKey } from './entered.ts';
import type { Result } from './result-of.ts';

type Ask = (product: ProductYield, result: Result) => Derivation | undefined;

const ASK: Readonly<Record<Asked, Ask>> = {
  net: (product, result) => netsOf(netsFor(product, result), product.name, result, product),
  theory: ({ substance }, { planned, enactment }) =>
    whyOf({ of: 'theory', experiment: planned.experiment, enactment, product: substance }),
  yield: (product, result) => {
    const { report, run, enactment, instruments } = result;
    return (
      whyOf({ of: 'yield', report, product: product.substance, run, enactment, instruments }) ??
      ASK.net(product, result)
    );
  },
};

/** Where a number of the answer comes from. */
export function derivedOf(
  asked: Asked,
  product: ProductYield,
  result: Result,
): Derivation | undefined {
  return ASK[asked](product, result);
}

/** What makes the ± of a yield. */
export function derivedUncertainty(
  { substance }: ProductYield,
  { report, run, enactment, instruments }: Result,
): Derivation | undefined {
  return whyOf({ of: 'uncertainty', report, product: substance, run, enactment, instruments });
}

/** Where a line of what was entered comes from, and what it became in the ledger. */
export function derivedRow(row: EnteredRow, result: Result): Derivation | undefined {
  const { run, enactment, instruments } = result;
  const net = run.nets.find(({ step, vessel }) => row.key === netKey(step, vessel));
  if (net !== undefined) return netsOf([net], `what is in the ${net.vessel}`, result);
  const charge = run.charges.find(
    ({ use, terms }) =>
      row.key === `use ${use}` || terms.some(({ reading }) => reading.id === row.entry?.id),
  );
  if (charge !== undefined)
    return whyOf({ of: 'charge', enactment, use: charge.use, run, instruments });
  return readingOf(row, result);
}

/** A single reading: who made it, on what, how surely. */
function readingOf({ entry, what }: EnteredRow, { run, instruments }: Result) {
  const readings = run.weighings.flatMap(({ tares, gross }) => [...tares, ...gross]);
  const written = run.nets.flatMap((net) => net.written ?? []);
  const reading = [...readings, ...written].find(({ id }) => id === entry?.id);
  const [line] = readingLines(reading === undefined ? [] : [{ sign: 1, reading }], instruments);
  if (line === undefined) return undefined;
  return derivation({
    title: what,
    formula: 'As it was read',
    lines: [],
    result: { ...line, symbol: '' },
  });
}

/** The nets that make up a product's mass; those of the crude where there is nothing else. */
function netsFor({ entries, net_g }: ProductYield, { run }: Result): RunNet[] {
  const counted = entries.filter(
    ({ kind }) => net_g === null || (kind !== 'crude' && kind !== 'earlier'),
  );
  const last = net_g === null ? counted.slice(-1) : counted;
  return last.flatMap(({ step, vessel }) =>
    run.nets.filter((net) => net.step === step && net.vessel === vessel),
  );
}

function netsOf(
  nets: readonly RunNet[],
  name: string,
  { enactment, instruments }: Result,
  product?: ProductYield,
): Derivation | undefined {
  if (nets.length === 0) return undefined;
  const mass_g = nets.reduce((sum, { net_g }) => sum + net_g, 0);
  const terms = nets.flatMap((net) => net.terms);
  const figures = figuresOfSum(mass_g, terms);
  const alone = nets.every(({ terms }) => terms.length === 1);
  return derivation({
    title: `Mass of ${name}`,
    formula: alone ? 'm as weighed' : nets.length > 1 ? 'm = Σ (gross − tare)' : 'm = gross − tare',
    lines: readingLines(terms, instruments),
    result: lineOf('m', `of ${name}`, mass_g, 'g', 'measured', undefined, figures),
    said: product === undefined ? [] : ['It counts as product, whatever its purity.'],
    postings: postingsOf(
      enactment,
      ({ step, substance, from, to }) =>
        (product === undefined || substance === product.substance) &&
        nets.some(
          (net) =>
            (product !== undefined || net.step === step) &&
            [from, to].some((account) => vesselOf(account) === net.vessel),
        ),
    ),
  });
}
