import type { Settings } from '../../../wire/settings.ts';
import { inSign } from '../typed/typed-number.ts';
import { readStored, store } from './stored.ts';

/** What a device remembers of the person at it. */
export interface Preferences {
  /** Initials. */
  readonly by: string;
  /** As an entry names it; null until one was chosen, or for one that is not named. */
  readonly balance: string | null;
  /** The screen stays on while a step is open. */
  readonly awake: boolean;
}

const DEVICE = 'weighboat.bench';
const nameOf = (run: string) => `${DEVICE} ${run}`;

/** Of this record; where it was never opened here, the balance of the last one and no initials. */
export function preferencesOf(run: string): Preferences {
  const device = readStored<Partial<Preferences>>(DEVICE, {});
  const { balance = null, awake = true } = device;
  return { by: '', balance, awake, ...readStored<Partial<Preferences>>(nameOf(run), {}) };
}

export function keepPreferences(run: string, preferences: Preferences): void {
  const { balance, awake } = preferences;
  store(DEVICE, { balance, awake });
  store(nameOf(run), preferences);
}

/** What can be chosen as the balance: its name in an entry, and in words. */
export interface BalanceChoice {
  readonly instrument: string;
  readonly label: string;
}

/** Readabilities of balances in teaching laboratories (common practice). */
const COMMON_g = ['0.0001', '0.001', '0.01', '0.1'];

/** The balances of the laboratory; where it has named none, what a balance shows. */
export function balanceChoices({ balances, decimalSign }: Settings): readonly BalanceChoice[] {
  if (balances.length > 0) return balances.map(({ id, name }) => ({ instrument: id, label: name }));
  return COMMON_g.map((readability) => ({
    instrument: `balance (${readability} g)`,
    label: `shows ${readability.replace('.', decimalSign)}\u202fg`,
  }));
}

/** In words; an instrument that the laboratory does not list is shown as it was written. */
export function balanceLabel(instrument: string, settings: Settings): string {
  const named = settings.balances.find(({ id }) => id === instrument)?.name;
  return named ?? inSign(instrument, settings.decimalSign);
}
