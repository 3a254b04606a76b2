/** What an amount measures. The base unit of each kind is in `BASE_UNIT`. */
export type AmountKind =
  | 'mass'
  | 'volume'
  | 'amount'
  | 'equivalents'
  | 'moleFraction'
  | 'molarity'
  | 'massPercent'
  | 'volumePercent'
  | 'massVolumePercent'
  | 'percent'
  | 'temperature'
  | 'time'
  | 'pH'
  | 'pressure'
  | 'length'
  | 'frequency'
  | 'drops'
  | 'massPerVolume';

/** The unit in which `Amount.value` of each kind is kept. Percentages stay as the number written. */
export const BASE_UNIT: Readonly<Record<AmountKind, string>> = {
  mass: 'g',
  volume: 'mL',
  amount: 'mmol',
  equivalents: 'equiv',
  moleFraction: 'mol%',
  molarity: 'mol/L',
  massPercent: '% w/w',
  volumePercent: '% v/v',
  massVolumePercent: '% w/v',
  percent: '%',
  temperature: '°C',
  time: 'min',
  pH: 'pH',
  pressure: 'kPa',
  length: 'mm',
  frequency: 'rpm',
  drops: 'mL',
  massPerVolume: 'g/mL',
};

export interface Amount {
  readonly kind: AmountKind;
  /** In the base unit of the kind; for a range, its lower end. */
  readonly value: number;
  /** The upper end of a range, in the same unit. */
  readonly high?: number;
  /** 3 for "3 × 10 mL"; `value` stays 10. */
  readonly repeat?: number;
  readonly approximate?: true;
  /** "a further", "another". */
  readonly further?: true;
  /** "up to", "below", "under", "at most". */
  readonly upTo?: true;
  readonly atLeast?: true;
  /** Significant figures of `value` as written; a written zero counts, so 10 has two. */
  readonly digits: number;
  /** The unit as written, in its standard spelling, or the phrase that stands for the amount. */
  readonly unit: string;
  readonly text: string;
  /** Why the number is assumed, with the word that says how well it is known. */
  readonly assumed?: string;
}

/** Words that ask for some matter, or some time, without a number. */
export interface Unquantified {
  readonly kind: 'unquantified';
  /** In standard spelling: 'excess', 'a little', 'spatula', 'until colourless' ... */
  readonly word: string;
  readonly text: string;
  readonly sense: 'excess' | 'some' | 'until' | 'constantMass';
  /** In g or mL. */
  readonly assumed?: {
    readonly kind: 'mass' | 'volume';
    readonly value: number;
    readonly source: string;
  };
}

export type AnyAmount = Amount | Unquantified;

/** An amount is meant but cannot be taken as written: why, and what to write instead. */
export interface AmountRefusal {
  readonly kind: 'refused';
  readonly message: string;
  readonly hint: string;
  readonly start: number;
  readonly end: number;
}

export type AmountReading =
  | { readonly kind: 'amount'; readonly amount: AnyAmount; readonly end: number }
  | AmountRefusal
  | { readonly kind: 'none' };
