import type { Basis } from '../../core/ledger/posting.ts';
import { measurementOf } from '../../core/record/measurement.ts';
import type { Reading } from '../../core/record/run.ts';
import type { ProductYield } from '../../core/report/yield/result.ts';
import { formatNumber, THIN_SPACE } from '../../core/quantity/print.ts';
import type { Asked } from './answer-parts.ts';
import { dayAndHour, isDated } from './clock.ts';
import { postingsOf } from './derivations.ts';
import type { ReadablePosting } from './derivations.ts';
import { asWritten } from './entered.ts';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';

export interface DerivedLine {
  readonly symbol: string;
  readonly what: string;
  readonly value: string;
  readonly basis: Basis;
  readonly source?: string;
}

/** A number with what it is made of. */
export interface Derived {
  readonly title: string;
  readonly formula: string;
  readonly lines: readonly DerivedLine[];
  readonly said: readonly string[];
  readonly postings: readonly ReadablePosting[];
}

/** Where a number of the answer comes from. */
export function derivedOf(
  asked: Asked,
  product: ProductYield,
  result: Result,
  figures: Figures,
): Derived {
  return DERIVE[asked](product, result, figures);
}

const DERIVE: Readonly<
  Record<Asked, (product: ProductYield, result: Result, figures: Figures) => Derived>
> = { net: netOf, yield: yieldOf, theory: theoryOf };

/** Who read it, when, on what, how surely. */
export function readingLine(
  reading: Reading,
  symbol: string,
  what: string,
  figures: Figures,
): DerivedLine {
  const { entry } = reading;
  const { u, instrument, unit, basis } = measurementOf(reading, what);
  const { day, hour } = dayAndHour(entry.at);
  const on = basis === 'measured' ? (entry.instrument ?? instrument) : `taken for ${instrument}`;
  const spread = `u ${formatNumber(u, 2, { decimal: figures.decimal })}${THIN_SPACE}${unit}`;
  const who = [entry.by, isDated(entry.at) ? `${day} ${hour}`.trim() : ''].filter(Boolean);
  return {
    symbol,
    what,
    value: asWritten(entry, figures.decimal),
    basis: 'measured',
    source: [...who, on, spread].join(' · '),
  };
}

function netOf(product: ProductYield, { run, enactment }: Result, figures: Figures): Derived {
  const entries = product.entries.filter(
    ({ kind }) => product.net_g === null || (kind !== 'crude' && kind !== 'earlier'),
  );
  const places = new Set(entries.map(({ step, vessel }) => `${step}|${vessel}`));
  const nets = run.nets.filter(({ step, vessel }) => places.has(`${step}|${vessel}`));
  return {
    title: `Mass of ${product.name}`,
    formula: nets.length > 1 ? 'm = Σ (gross − tare)' : 'm = gross − tare',
    lines: nets.flatMap(({ terms, step, vessel }) =>
      terms.map(({ reading }) =>
        readingLine(
          reading,
          '',
          `${vessel}, ${reading.entry.kind}, step ${reading.step ?? step}`,
          figures,
        ),
      ),
    ),
    said: ['It counts as product, whatever its purity.'],
    postings: postingsOf(
      enactment,
      figures,
      ({ substance, account, other }) =>
        substance === product.substance &&
        entries.some(({ vessel }) => [account, other].some((each) => each.includes(`/${vessel}/`))),
    ),
  };
}

function yieldOf(product: ProductYield, { report }: Result, figures: Figures): Derived {
  const { theory, yield: final } = product;
  const crude = product.entries.at(-1);
  const percent = final ?? crude?.yield;
  const net_g = product.net_g ?? crude?.net_g ?? 0;
  const decimal = { decimal: figures.decimal };
  return {
    title: product.recovered ? 'Recovery' : 'Percent yield',
    formula: product.recovered ? 'Y = 100 · m / m(charged)' : 'Y = 100 · m / T',
    lines: [
      {
        symbol: 'm',
        what: 'weighed',
        value: figures.mass(net_g, crude?.lastDigit_g ?? 0.001),
        basis: 'measured',
      },
      ...(theory === null
        ? []
        : [
            {
              symbol: product.recovered ? '' : 'T',
              what: product.recovered ? 'charged' : 'theoretical yield',
              value: figures.grams(theory.mass_g),
              basis: 'planned' as const,
            },
          ]),
      ...(percent === undefined
        ? []
        : [
            {
              symbol: 'u',
              what: 'standard uncertainty',
              value: `${formatNumber(percent.u_percent, 2, decimal)}${THIN_SPACE}%`,
              basis: 'planned' as const,
              source: 'linear propagation, GUM (JCGM 100:2008)',
            },
            {
              symbol: 'U',
              what: `expanded, k = ${report.k}`,
              value: `${formatNumber(percent.U_percent, 2, decimal)}${THIN_SPACE}%`,
              basis: 'planned' as const,
            },
          ]),
    ],
    said: report.assumed.map(figures.said),
    postings: [],
  };
}

function theoryOf(product: ProductYield, result: Result, figures: Figures): Derived {
  const { theory } = product;
  const { enactment } = result;
  const substance = enactment.substances.get(product.substance);
  const basis = theory === null ? undefined : theory.basis;
  const charges = enactment.charges.filter(
    ({ material }) => material.substance.id === basis?.substance,
  );
  const molarMass = substance?.molarMass_g_mol;
  return {
    title: product.recovered ? 'What was charged' : 'Theoretical yield',
    formula: product.recovered ? 'm(charged)' : 'T = M · n',
    lines: [
      ...charges.map(({ name, step, mass_g, basis: known }) => ({
        symbol: '',
        what: `${name}, step ${step}`,
        value: figures.grams(mass_g),
        basis: known,
      })),
      ...(theory === null
        ? []
        : [
            {
              symbol: 'n',
              what: `${theory.basis.name}, ${theory.basisDeclared ? 'counted on' : 'which limits'}`,
              value: figures.millimoles(theory.basis_mmol),
              basis: 'planned' as const,
            },
            {
              symbol: 'n',
              what: `${product.name} that this can give`,
              value: figures.millimoles(theory.amount_mmol),
              basis: 'planned' as const,
            },
          ]),
      ...(molarMass === undefined
        ? []
        : [
            {
              symbol: 'M',
              what: product.name,
              value: `${formatNumber(molarMass, 5, { decimal: figures.decimal })}${THIN_SPACE}g/mol`,
              basis: 'planned' as const,
              source: 'standard atomic weights, IUPAC',
            },
          ]),
    ],
    said: charges.flatMap(({ assumed }) => assumed).map(figures.said),
    postings: postingsOf(
      enactment,
      figures,
      ({ substance: moved, other }) =>
        moved === product.substance &&
        (other.startsWith('reaction/') || other.startsWith('stock/')),
    ),
  };
}
