import type { InfraredSpectrum } from '../../core/evidence/spectrum/infrared.ts';
import type { InfraredJudgement } from '../../core/evidence/spectrum/judge/judge.ts';
import type { Verdict } from '../../core/evidence/spectrum/judge/group-judgement.ts';
import type { Paper } from './ink.ts';
import { paintTable } from './table.ts';
import { harmless, paragraph } from './text.ts';

const VERDICT: Readonly<Record<Verdict, string>> = {
  present: 'seen',
  absent: 'not there',
  cannotTell: 'cannot be told',
};

const GROUP: Readonly<Record<string, string>> = {
  oh: 'O–H',
  acid: 'carboxylic acid',
  nh: 'N–H',
  carbonyl: 'C=O',
  nitrile: 'C≡N',
  nitro: 'NO₂',
  'alkyne-h': '≡C–H',
  'aldehyde-ch': 'CHO',
  aryl: 'aromatic ring',
  alkene: 'C=C',
  'c-o': 'C–O',
  'c-cl': 'C–Cl',
};

const at = (position_percm: number | undefined): string =>
  position_percm === undefined ? '' : position_percm.toFixed(0);

/** The story, the bands that were looked for, and the groups that the trace shows by itself. */
export function paintSpectrum(
  spectrum: InfraredSpectrum,
  judgement: InfraredJudgement,
  picture: string | undefined,
  paper: Paper,
): string {
  const { ink, width } = paper;
  const { bands, groups, summary } = judgement;
  const looked = bands.filter(({ duty }) => duty === 'must');
  const expected = paintTable(
    looked,
    [
      { head: 'band', cell: ({ what }) => what },
      {
        head: 'expected / cm⁻¹',
        cell: ({ window_percm: [low, high] }) => `${at(low)}–${at(high)}`,
        align: 'right',
      },
      {
        head: 'found',
        cell: ({ evidence, verdict }) =>
          verdict === 'present' ? at(evidence?.position_percm) : '–',
        align: 'right',
      },
      { head: 'verdict', cell: ({ verdict }) => VERDICT[verdict] },
      { head: 'why', cell: ({ reasons }) => reasons[0] ?? '', least: 24, spare: 1 },
    ],
    paper,
  );
  const seen = paintTable(
    groups,
    [
      { head: 'group', cell: ({ group }) => GROUP[group] ?? group },
      { head: 'verdict', cell: ({ verdict }) => VERDICT[verdict] },
      {
        head: 'probability',
        cell: ({ probability }) => probability.toFixed(2),
        align: 'decimal',
      },
      {
        head: 'at / cm⁻¹',
        cell: ({ evidence, verdict }) =>
          verdict === 'absent' ? '' : at(evidence[0]?.position_percm),
        align: 'right',
      },
    ],
    paper,
  );
  return [
    ink.bold(paragraph(harmless(spectrum.title) || 'Infrared spectrum', width)),
    ...summary.map((sentence) => paragraph(harmless(sentence), width)),
    ...(looked.length === 0 ? [] : ['', expected.text]),
    '',
    seen.text,
    ...(picture === undefined
      ? []
      : ['', paragraph(`The trace is written to ${harmless(picture)}.`, width)]),
  ].join('\n');
}
