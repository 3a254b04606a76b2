import type { Experiment, Step } from '../../experiment/step.ts';
import type { VerbKind } from '../../experiment/verbs/kind.ts';
import type { Amount } from '../../quantity/amount.ts';
import { formatAmount } from '../../quantity/print.ts';
import type { BenchField } from './field.ts';

/** A thermometer in a flask and a bath that swings (common practice). */
const TEMPERATURE_MARGIN_C = 15;
/** Impure solids melt low; hardly one melts much above its literature value (common practice). */
const MELTS_BELOW_C = 40;
const MELTS_ABOVE_C = 8;

type Reader = (step: Step, experiment: Experiment, weighedIn: readonly string[]) => BenchField[];

/** What the sentence asks to be looked at or read off a thermometer. */
export function seenFields(
  step: Step,
  experiment: Experiment,
  weighedIn: readonly string[],
): BenchField[] {
  const own = BY_VERB[step.verb]?.(step, experiment, weighedIn) ?? [];
  return [...temperatureFields(step), ...own];
}

const BY_VERB: Readonly<Partial<Record<VerbKind, Reader>>> = {
  meltingRange: meltingFields,
  spectrum: observationFields,
  tlc: observationFields,
};

/** Where the sentence gives a figure. At an evaporation that is the bath's, which nobody writes down. */
function temperatureFields({ id, verb, slots, text }: Step): BenchField[] {
  const { temperature } = slots;
  const vessel = slots.on?.[0]?.vessel ?? slots.into;
  if (temperature?.kind !== 'temperature' || vessel === undefined) return [];
  if (verb === 'evaporate' || temperature.assumed !== undefined) return [];
  return [
    {
      key: `temperature ${id}`,
      kind: 'temperature',
      vessel,
      label: `temperature, ${vessel}`,
      counts: false,
      unit: '°C',
      ...expectedOf(temperature, text),
      decimals: 0,
    },
  ];
}

/** Words before a figure that is not to be passed. */
const AT_MOST = /\b(?:below|under|above|beyond|exceed(?:ing)?|more than|less than|at most)\s*$/i;
const AT_LEAST = /\b(?:fall|drop|sink|cool)(?:s|ing)?\s+(?:below|under)\s*$/i;

/** A figure that is aimed at, or one that is not to be passed: "below 40 °C", "does not rise above 40 °C". */
function expectedOf(
  temperature: Amount,
  sentence: string,
): Pick<BenchField, 'planned' | 'low' | 'high'> {
  const { upTo, atLeast, ...figure } = temperature;
  const { value, high = value } = figure;
  const said = formatAmount(figure);
  const before = sentence.slice(0, Math.max(0, sentence.indexOf(temperature.text)));
  const limit = (word: string) => ({ value, text: `${word} ${said}`, limit: true as const });
  if (atLeast || AT_LEAST.test(before)) return { planned: limit('at least'), low: value };
  if (upTo || AT_MOST.test(before)) return { planned: limit('at most'), high };
  return {
    planned: { value, text: said },
    low: value - TEMPERATURE_MARGIN_C,
    high: high + TEMPERATURE_MARGIN_C,
  };
}

/** "The melting range of each solid": one for each vessel that a product was weighed in. */
function meltingFields(
  { id, slots, text }: Step,
  { products }: Experiment,
  weighedIn: readonly string[],
): BenchField[] {
  const each = /\beach\b|\bboth\b|\ball\b/i.test(text) && weighedIn.length > 1;
  const vessels = each ? weighedIn : [slots.on?.[0]?.vessel];
  const only = products.length === 1 ? products[0]!.substance : undefined;
  const melts_C = only?.meltingPoint_C;
  return vessels.map((vessel) => ({
    key: `melting range ${id}${each ? ` ${vessel}` : ''}`,
    kind: 'meltingRange' as const,
    ...(vessel === undefined ? {} : { vessel }),
    label: `melting range${each ? `, ${vessel}` : ''}`,
    counts: false,
    unit: '°C',
    ...(melts_C === undefined
      ? {}
      : { low: melts_C - MELTS_BELOW_C, high: melts_C + MELTS_ABOVE_C }),
    decimals: 1,
  }));
}

function observationFields({ id, slots }: Step): BenchField[] {
  const vessel = slots.on?.[0]?.vessel;
  return [
    {
      key: `observation ${id}`,
      kind: 'observation',
      ...(vessel === undefined ? {} : { vessel }),
      label: labelOf(slots.detail),
      counts: false,
      unit: '',
      decimals: 0,
    },
  ];
}

function labelOf(detail: string | undefined): string {
  return detail?.trim().replace(/^(?:of |the )+/i, '') || 'what was found';
}
