import type { Settings } from '../../wire/settings.ts';

/** What numbers look like until the settings of the laboratory are here. */
export const DEFAULT_SETTINGS_SHOWN: Settings = {
  decimalSign: '.',
  terms: 'uk',
  paper: 'a4',
  balances: [],
  glassware: [],
};
