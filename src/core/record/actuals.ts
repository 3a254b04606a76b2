import { netKey } from '../enact/actuals.ts';
import type { ActualCharge, Actuals } from '../enact/actuals.ts';
import type { Instrument } from '../quantity/instrument.ts';
import type { Measurement } from './measurement.ts';
import { measurementOf } from './measurement.ts';
import type { BenchRun, Reading } from './run.ts';

/** What the interpreter takes from a bench: charges by use, nets by step and vessel. */
export function actualsOf(run: BenchRun): Actuals {
  const charges = new Map<string, ActualCharge>();
  for (const charge of run.charges) {
    const amount = charge.kind === 'mass' ? { mass_g: charge.value } : { volume_mL: charge.value };
    const lastDigit = Math.max(...charge.terms.map(({ reading }) => reading.lastDigit));
    charges.set(charge.use, { ...amount, lastDigit });
  }
  for (const { use, purity_percent } of run.lots) {
    if (purity_percent !== undefined) charges.set(use, { ...charges.get(use), purity_percent });
  }
  const nets = new Map<string, number>();
  for (const net of run.nets) {
    // Less than nothing is a finding of the yield report, not matter.
    if (net.net_g >= 0) nets.set(netKey(net.step, net.vessel), net.net_g);
  }
  return { charges, nets };
}

/** Every reading that charges and nets rest on, once, with its uncertainty. */
export function measurementsOf(run: BenchRun, own: readonly Instrument[] = []): Measurement[] {
  const measurements = new Map<string, Measurement>();
  const keep = (reading: Reading, what: string): void => {
    if (!measurements.has(reading.id)) {
      measurements.set(reading.id, measurementOf(reading, what, own));
    }
  };
  for (const charge of run.charges) {
    for (const { reading } of charge.terms) {
      const part = reading.entry.kind === 'charge' ? '' : `${reading.entry.kind} of `;
      keep(reading, `${part}${charge.name}, step ${charge.step}`);
    }
  }
  for (const net of run.nets) {
    for (const { reading } of net.terms) {
      const step = reading.entry.kind === 'tare' ? '' : `, step ${net.step}`;
      keep(reading, `${reading.entry.kind} of the ${net.vessel}${step}`);
    }
  }
  return [...measurements.values()];
}
