export const THEME_CHOICES = ['system', 'light', 'dark'] as const;
export type ThemeChoice = (typeof THEME_CHOICES)[number];

const KEY = 'weighboat.theme';
const system = () => window.matchMedia('(prefers-color-scheme: dark)');

/** Kept on this device, since the same person reads in a bright laboratory and a dark office. */
export function themeChoice(): ThemeChoice {
  const kept = localStorage.getItem(KEY);
  return THEME_CHOICES.find((choice) => choice === kept) ?? 'system';
}

export function chooseTheme(choice: ThemeChoice): void {
  localStorage.setItem(KEY, choice);
  applyTheme();
}

export function applyTheme(): void {
  const choice = themeChoice();
  const dark = choice === 'dark' || (choice === 'system' && system().matches);
  document.documentElement.dataset['theme'] = dark ? 'dark' : 'light';
}

/** Once, before the first paint; follows the system from then on. */
export function startTheme(): void {
  applyTheme();
  system().addEventListener('change', applyTheme);
}
