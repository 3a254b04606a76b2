import type { GroupJudgement, JudgedGroup } from '../group-judgement.ts';

/** One judged group of one spectrum beside the truth. */
export interface Judged {
  readonly file: string;
  readonly state: string;
  readonly truth: boolean;
  readonly judgement: GroupJudgement;
}

export interface ConfusionRow {
  readonly group: JudgedGroup;
  readonly state: string;
  readonly n: number;
  readonly positives: number;
  readonly sensitivity: number;
  readonly specificity: number;
  readonly cannotTell: number;
  readonly brier: number;
  /** Mean probability and share of true ones, by fifths of the probability. */
  readonly bins: readonly { readonly mean: number; readonly share: number; readonly n: number }[];
  readonly wrong: readonly string[];
}

/** Per group and state: what came out, cannot-tells apart. */
export function confusionOf(all: readonly Judged[]): ConfusionRow[] {
  const keys = new Map<string, Judged[]>();
  for (const one of all) {
    const key = `${one.judgement.group}|${one.state}`;
    keys.set(key, [...(keys.get(key) ?? []), one]);
  }
  return [...keys.values()].map(rowOf);
}

function rowOf(all: readonly Judged[]): ConfusionRow {
  const told = all.filter(({ judgement }) => judgement.verdict !== 'cannotTell');
  const right = (truth: boolean) =>
    told.filter((one) => one.truth === truth && (one.judgement.verdict === 'present') === truth)
      .length;
  const ofTruth = (truth: boolean) => told.filter((one) => one.truth === truth).length;
  const first = all[0]!;
  return {
    group: first.judgement.group,
    state: first.state,
    n: all.length,
    positives: all.filter(({ truth }) => truth).length,
    sensitivity: right(true) / ofTruth(true),
    specificity: right(false) / ofTruth(false),
    cannotTell: 1 - told.length / all.length,
    brier:
      all.reduce(
        (sum, { truth, judgement }) => sum + (judgement.probability - Number(truth)) ** 2,
        0,
      ) / all.length,
    bins: binsOf(all),
    wrong: [
      ...new Set(
        told
          .filter(({ truth, judgement }) => (judgement.verdict === 'present') !== truth)
          .map(
            ({ file, truth, judgement }) =>
              `${truth ? '-' : '+'}${file} ${judgement.probability.toFixed(2)}`,
          ),
      ),
    ],
  };
}

function binsOf(all: readonly Judged[]): ConfusionRow['bins'] {
  return [0, 1, 2, 3, 4].map((fifth) => {
    const inside = all.filter(
      ({ judgement: { probability } }) => Math.min(4, Math.floor(probability * 5)) === fifth,
    );
    const n = inside.length;
    return {
      mean: inside.reduce((sum, { judgement }) => sum + judgement.probability, 0) / n,
      share: inside.filter(({ truth }) => truth).length / n,
      n,
    };
  });
}

/** The table as text, one row a group and state. */
export function confusionText(rows: readonly ConfusionRow[], withWrong = false): string {
  const figure = (value: number) => (Number.isFinite(value) ? value.toFixed(3) : '  –  ');
  const lines = [
    'group        state        n  with  sens.  spec.  untold Brier  reliability (mean→share, n)',
  ];
  for (const row of rows) {
    const bins = row.bins
      .filter(({ n }) => n > 0)
      .map(({ mean, share, n }) => `${mean.toFixed(2)}→${share.toFixed(2)} (${n})`)
      .join('  ');
    lines.push(
      [
        row.group.padEnd(12),
        row.state.padEnd(9),
        String(row.n).padStart(4),
        String(row.positives).padStart(5),
        figure(row.sensitivity),
        figure(row.specificity),
        figure(row.cannotTell),
        figure(row.brier),
        bins,
      ].join(' '),
    );
    if (withWrong) for (const one of row.wrong) lines.push(`    ${one}`);
  }
  return lines.join('\n');
}
