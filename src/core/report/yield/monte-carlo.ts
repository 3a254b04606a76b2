import { monteCarloColumns } from '../../quantity/monte-carlo.ts';
import type { ColumnModel, MonteCarloResult } from '../../quantity/monte-carlo.ts';
import type { InputTable } from './inputs.ts';
import type { Linear, YieldInput } from './linear.ts';
import type { ProductModel, ProductTerm } from './product-theory.ts';

/** A yield as a function of its inputs, for drawing: columns of inputs in, percentages out. */
export interface YieldDraws {
  readonly inputs: readonly YieldInput[];
  readonly model: ColumnModel;
}

/** constant + Σ slope·column, ready to be run over columns. */
interface Compiled {
  readonly constant: number;
  readonly columns: readonly number[];
  readonly slopes: readonly number[];
}

/**
 * The model behind a percent yield: 100·net/(M·Σ ν·min(n/ν)), with the least taken anew in each
 * draw, which linear propagation cannot do where two reactants nearly tie. Inputs without an
 * uncertainty are left out.
 */
export function yieldDraws(net: Linear, product: ProductModel, table: InputTable): YieldDraws {
  const forms = [net, product.molarMass, ...product.terms.flatMap(formsOf)];
  const ids = [...new Set(forms.flatMap((form) => [...form.slopes.keys()]))];
  const inputs = ids.flatMap((id) => {
    const input = table.get(id);
    return input !== undefined && input.u > 0 ? [input] : [];
  });
  const place = new Map(inputs.map((input, i) => [input.id, i]));
  const compiled = (form: Linear): Compiled => compile(form, inputs, place);
  const netOf = compiled(net);
  const molarMass = compiled(product.molarMass);
  const terms = product.terms.map((term) => ({
    coefficient: term.coefficient,
    supplies: term.limiting.map(({ amount, molarMass: own, supply }) => ({
      moles: compiled(amount),
      molarMass: own === undefined ? undefined : compiled(own),
      factor: (own?.value ?? 1) / supply.coefficient,
    })),
  }));
  const model: ColumnModel = (columns, out) => {
    const size = out.length;
    const theory = new Float64Array(size);
    const extent = new Float64Array(size);
    const scratch = new Float64Array(size);
    const other = new Float64Array(size);
    for (const { coefficient, supplies } of terms) {
      extent.fill(Infinity);
      for (const { moles, molarMass: own, factor } of supplies) {
        evaluate(moles, columns, scratch);
        if (own === undefined) other.fill(1);
        else evaluate(own, columns, other);
        for (let i = 0; i < size; i++) {
          const reach = (scratch[i]! * factor) / other[i]!;
          if (reach < extent[i]!) extent[i] = reach;
        }
      }
      for (let i = 0; i < size; i++) theory[i] = theory[i]! + coefficient * extent[i]!;
    }
    evaluate(molarMass, columns, scratch);
    evaluate(netOf, columns, out);
    for (let i = 0; i < size; i++) out[i] = (1e5 * out[i]!) / (theory[i]! * scratch[i]!);
  };
  return { inputs, model };
}

function formsOf({ limiting }: ProductTerm): Linear[] {
  return limiting.flatMap(({ amount, molarMass }) =>
    molarMass === undefined ? [amount] : [amount, molarMass],
  );
}

function compile(
  form: Linear,
  inputs: readonly YieldInput[],
  place: ReadonlyMap<string, number>,
): Compiled {
  let constant = form.value;
  const columns: number[] = [];
  const slopes: number[] = [];
  for (const [id, slope] of form.slopes) {
    const column = place.get(id);
    if (column === undefined || slope === 0) continue;
    columns.push(column);
    slopes.push(slope);
    constant -= slope * inputs[column]!.value;
  }
  return { constant, columns, slopes };
}

function evaluate(
  { constant, columns, slopes }: Compiled,
  values: readonly Float64Array[],
  out: Float64Array,
): void {
  out.fill(constant);
  columns.forEach((column, k) => {
    const from = values[column]!;
    const slope = slopes[k]!;
    for (let i = 0; i < out.length; i++) out[i] = out[i]! + slope * from[i]!;
  });
}

/** Draws `n` yields (JCGM 101:2008) as a check on the linear propagation. */
export function drawYield(draws: YieldDraws, n: number, seed: number): MonteCarloResult {
  return monteCarloColumns(draws.inputs, draws.model, n, seed);
}
