import type { ExperimentSummary } from '../../wire/experiment.ts';

/** More than these, and one wants to search. */
export const HANDFUL = 6;

export function newestFirst(all: readonly ExperimentSummary[]): ExperimentSummary[] {
  return [...all].sort(
    (a, b) => b.head.savedAt.localeCompare(a.head.savedAt) || a.title.localeCompare(b.title),
  );
}

const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();

/** Those that have every word of the question in their title, course or version name. */
export function matching(
  all: readonly ExperimentSummary[],
  question: string,
): readonly ExperimentSummary[] {
  const words = plain(question).split(/\s+/).filter(Boolean);
  return all.filter(({ title, course, head }) => {
    const said = plain(`${title} ${course ?? ''} ${head.name ?? ''}`);
    return words.every((word) => said.includes(word));
  });
}

/** "6 experiments with 13 bench records". */
export function countText(all: readonly ExperimentSummary[]): string {
  const runs = all.reduce((sum, { runs: of }) => sum + of, 0);
  const experiments = `${all.length} ${all.length === 1 ? 'experiment' : 'experiments'}`;
  return runs === 0 ? experiments : `${experiments} with ${recordsText(runs)}`;
}

export function recordsText(runs: number): string {
  if (runs === 0) return 'No bench records';
  return `${runs} bench ${runs === 1 ? 'record' : 'records'}`;
}
