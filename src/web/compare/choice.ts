import type { Version } from '../../wire/experiment.ts';
import { whenText } from '../ui/when.ts';

/** Which two versions are compared: as the address says, or else the newest with the named one before. */
export function chosen(
  versions: readonly Version[],
  asked: { readonly from: string | null; readonly to: string | null },
): { readonly from: number; readonly to: number } {
  const newest = versions[0]?.number ?? 1;
  const named = (text: string | null) => {
    const number = Number(text ?? Number.NaN);
    return versions.some((version) => version.number === number) ? number : undefined;
  };
  const to = named(asked.to) ?? newest;
  const earlier = versions.filter(({ number }) => number < to);
  const given = earlier.find(({ name }) => name !== null) ?? earlier[0];
  return { from: named(asked.from) ?? given?.number ?? to, to };
}

/** "Version 3: as given to section B", "Version 4, saved today 12:03". */
export function versionLabel({ number, name, savedAt }: Version): string {
  return name === null
    ? `Version ${number}, saved ${whenText(savedAt)}`
    : `Version ${number}: ${name}`;
}
