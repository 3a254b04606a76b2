import type { Balance, Glassware } from '../../wire/settings.ts';

/** A figure of an instrument: what it is called, where it stands, what it may be. */
export interface Column<Key extends string = string> {
  readonly key: Key;
  readonly title: string;
  readonly unit: 'g' | 'mL';
  readonly aid: string;
  /** Above this, or from it on where `zero` is allowed. */
  readonly zero: boolean;
  readonly most: number;
}

export type BalanceFigure = Exclude<keyof Balance, 'id' | 'name'>;
export type GlassFigure = Exclude<keyof Glassware, 'id' | 'name'>;

export const BALANCE_COLUMNS: readonly Column<BalanceFigure>[] = [
  {
    key: 'readability_g',
    title: 'Reads to',
    unit: 'g',
    aid: 'The smallest step of the display: d on the plate of the balance.',
    zero: false,
    most: 10,
  },
  {
    key: 'repeatability_g',
    title: 'Repeatability',
    unit: 'g',
    aid: 'A standard deviation: from the data sheet, or weigh one thing ten times.',
    zero: true,
    most: 10,
  },
  {
    key: 'linearity_g',
    title: 'Linearity ±',
    unit: 'g',
    aid: 'The greatest error along the scale: from the certificate or the data sheet.',
    zero: true,
    most: 10,
  },
  {
    key: 'capacity_g',
    title: 'Capacity',
    unit: 'g',
    aid: 'The most that it weighs: Max on the plate.',
    zero: false,
    most: 100_000,
  },
];

export const GLASS_COLUMNS: readonly Column<GlassFigure>[] = [
  {
    key: 'volume_mL',
    title: 'Volume',
    unit: 'mL',
    aid: 'The volume that is marked on it; of a scale, the largest.',
    zero: false,
    most: 100_000,
  },
  {
    key: 'tolerance_mL',
    title: 'Tolerance ±',
    unit: 'mL',
    aid: 'Marked on the glass beside its class, or from its certificate.',
    zero: false,
    most: 10_000,
  },
];
