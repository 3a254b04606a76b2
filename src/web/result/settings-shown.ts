/** What numbers look like until the settings of the laboratory are here. */
export const DEFAULT_SETTINGS_SHOWN = { decimalSign: '.' } as const;
