import type { Experiment, Step } from '../../experiment/step.ts';
import type { VerbKind } from '../../experiment/verbs/kind.ts';
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
function temperatureFields({ id, verb, slots }: Step): BenchField[] {
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
      planned: { value: temperature.value, text: formatAmount(temperature) },
      low: temperature.value - TEMPERATURE_MARGIN_C,
      high: (temperature.high ?? temperature.value) + TEMPERATURE_MARGIN_C,
      decimals: 0,
    },
  ];
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
