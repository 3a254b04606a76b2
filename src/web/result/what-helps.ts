import { allInstruments } from '../../core/quantity/instrument.ts';
import type { Instrument } from '../../core/quantity/instrument.ts';
import { measurementOf } from '../../core/record/measurement.ts';
import type { BenchRun, Reading } from '../../core/record/run.ts';
import type { ProductYield } from '../../core/report/yield/result.ts';
import type { Figures } from './figures.ts';
import { shareText } from './figures.ts';
import type { Result } from './result-of.ts';

/** Readings that go together: to weigh one of them better is to weigh all of them better. */
interface Source {
  readonly what: string;
  /** "the product" */
  readonly weighed: string;
  readonly readings: readonly Reading[];
  /** Taken as written: nothing was read. */
  readonly planned: boolean;
  readonly share: number;
}

/** Below this part of U nothing is worth the trouble. */
const LEAST_GAIN = 0.1;

/**
 * What would make the yield more certain, said only where it follows from the budget: the largest
 * source, and how far U would fall if that were weighed on a finer balance.
 */
export function whatHelps(
  product: ProductYield,
  { run, instruments }: Pick<Result, 'run' | 'instruments'>,
  figures: Figures,
): string | undefined {
  const { yield: percent } = product;
  const sources = sourcesOf(product, run);
  const [largest] = sources;
  if (percent === null || largest === undefined || !(percent.U_percent > 0)) return undefined;
  const comes = `${shareText(largest.share, figures)} of the variance comes from ${largest.what}`;
  if (largest.planned)
    return `${comes}, which nobody measured: the amount counts as written. To measure it would help most.`;
  const gains = sources.flatMap((source) =>
    gainOf(source, product, percent.U_percent, instruments),
  );
  const [best] = gains.sort((a, b) => a.U_percent - b.U_percent);
  if (best === undefined || best.U_percent > (1 - LEAST_GAIN) * percent.U_percent)
    return `${comes}. No single weighing on a finer balance would make it much smaller.`;
  const U = best.U_percent;
  const spread = figures.plainPercent(U, U >= 0.05 ? 1 : 2);
  return `${comes}. If ${best.source.weighed} is weighed on a balance that reads to ${figures.said(best.readability)}, ± comes down to ${spread}.`;
}

function sourcesOf(product: ProductYield, run: BenchRun): Source[] {
  const shares = new Map(product.budget.map(({ id, share }) => [id, share]));
  const shareOf = (ids: readonly string[]) =>
    [...new Set(ids)].reduce((sum, id) => sum + (shares.get(id) ?? 0), 0);
  const source = (weighs: string, weighed: string, readings: readonly Reading[]): Source => ({
    what: `${weighs} ${weighed}`,
    weighed,
    readings,
    planned: false,
    share: shareOf(readings.map(({ id }) => id)),
  });
  const nets = run.nets.filter(({ step, vessel }) =>
    product.entries.some(
      (entry) => entry.step === step && entry.vessel === vessel && entry.kind !== 'crude',
    ),
  );
  const used = run.charges.filter(({ terms }) =>
    terms.some(({ reading }) => shares.has(reading.id)),
  );
  const planned = product.budget.filter(({ basis }) => basis === 'planned');
  return [
    source(
      'weighing',
      'the product',
      nets.flatMap(({ terms }) => terms.map((term) => term.reading)),
    ),
    ...used.map(({ name, kind, terms }) =>
      source(
        kind === 'mass' ? 'weighing' : 'measuring out',
        `the ${name}`,
        terms.map((term) => term.reading),
      ),
    ),
    ...planned.map(({ what, share }) => ({
      what: `the ${what.split(':')[0] ?? what}`,
      weighed: '',
      readings: [],
      planned: true,
      share,
    })),
  ]
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share);
}

/** U with the readings of one source made on the next finer balance of the table. */
function gainOf(
  source: Source,
  product: ProductYield,
  U_percent: number,
  own: readonly Instrument[],
) {
  const { readings } = source;
  const finer = readings.every(({ kind }) => kind === 'mass') && finerBalance(readings, own);
  if (!finer || readings.length === 0) return [];
  const shares = new Map(product.budget.map(({ id, share }) => [id, share]));
  const unique = new Map(readings.map((reading) => [reading.id, reading]));
  let saved = 0;
  for (const [id, reading] of unique) {
    const now = measurementOf(reading, '', own).u;
    const then = measurementOf({ ...reading, instrument: finer.id }, '', own).u;
    if (then < now) saved += (shares.get(id) ?? 0) * (1 - (then / now) ** 2);
  }
  const step_g = finer.readability ?? 0;
  const readability = `${Number((step_g * 1000).toPrecision(3))}\u202fmg`;
  return [{ source, readability, U_percent: U_percent * Math.sqrt(Math.max(0, 1 - saved)) }];
}

/** The laboratory's own where it has one that is finer, or else one of the table. */
function finerBalance(readings: readonly Reading[], own: readonly Instrument[]) {
  const step_g = Math.min(...readings.map(({ lastDigit }) => lastDigit));
  const heaviest_g = Math.max(...readings.map(({ value }) => value));
  const finer = (instruments: readonly Instrument[]) =>
    instruments
      .filter(
        ({ kind, readability = 0, capacity = Number.POSITIVE_INFINITY }) =>
          kind === 'balance' && readability < step_g * 0.999 && capacity >= heaviest_g,
      )
      .sort((a, b) => (b.readability ?? 0) - (a.readability ?? 0))[0];
  return finer(own) ?? finer(allInstruments());
}
