import { elementOf } from '../../chemistry/element.ts';
import { molarMass } from '../../chemistry/molar-mass.ts';
import type { Substance } from '../../chemistry/substance.ts';
import { derivation, lineOf } from './derivation.ts';
import type { Derivation, WhyLine } from './derivation.ts';

/** M = Σ ν(E)·A(E), with the published source of each atomic weight. */
export function whyMolarMass(substance: Substance): Derivation | undefined {
  const { composition, molarMass_g_mol, name } = substance;
  if (composition === undefined || molarMass_g_mol === undefined) return undefined;
  const { parts } = molarMass(composition);
  return derivation({
    title: `Molar mass of ${name}`,
    formula: 'M = Σ ν · A',
    lines: parts.map(({ symbol, count, weight }) => {
      const element = elementOf(symbol);
      const what = `${element?.name ?? symbol}, ν = ${count}`;
      return lineOf(`A(${symbol})`, what, weight, 'g/mol', 'table', element?.source);
    }),
    result: molarMassLine(substance, molarMass_g_mol),
    said: identityOf(substance),
  });
}

/** M as a line of another formula; its source is that of the atomic weights. */
export function molarMassLine(substance: Substance, molarMass_g_mol: number): WhyLine {
  const what = `molar mass of ${substance.name}`;
  const [first] = substance.composition?.counts.keys() ?? [];
  const source = first === undefined ? undefined : elementOf(first)?.source;
  return lineOf('M', what, molarMass_g_mol, 'g/mol', 'table', source);
}

function identityOf({ formula, sources, origin }: Substance): string[] {
  const known = formula === undefined ? [] : [`Counted from the formula ${formula}.`];
  const { identity } = sources;
  const from = origin === 'table' && identity !== undefined ? [identity] : [];
  return [...known, ...from.map((source) => `The formula is that of: ${source}.`)];
}
