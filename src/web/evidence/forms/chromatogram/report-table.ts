import { isNamed } from '../../../../core/evidence/chromatogram/named.ts';
import type { ChromatogramPeak } from '../../../../core/evidence/chromatogram/schema.ts';
import type { Subjects } from '../../../../core/evidence/subject.ts';
import type { DecimalSign } from '../../../bench/typed/typed-number.ts';
import { choosing } from '../choice-or-other.tsx';
import type { Draft } from '../draft.ts';
import { typed } from '../from-file.tsx';
import { numberColumns, pastedTable } from '../pasted-table.ts';
import { whatOf } from './what.ts';

/** Which column holds what. */
interface Columns {
  readonly time: number;
  readonly area: number;
  readonly halfWidth?: number;
  readonly name?: number;
  /** 1/60 where the report counts in seconds. */
  readonly inMinutes: number;
}

const TIME = /ret|time|\br\.?\s?t\b|\bt_?r\b|zeit/i;
const AREA = /area|fläche/i;
const SHARE = /%|per\s?cent|prozent|rel/i;
const HALF = /(?:width|fwhm|breite).*(?:50|half|½|1\/2|0[.,]5)|half.*width|halbwert|fwhm/i;
const NAME = /name|compound|component|substance|analyte|verbindung|stoff/i;
const SECONDS = /[[(]\s*s(?:ec)?\s*[\])]|\bsec(?:onds)?\b/i;

/** By the headings; without them time and area come first, in this order. */
function columnsOf(headings: readonly string[], numbers: readonly number[]): Columns | undefined {
  const named = (fits: RegExp, but?: RegExp) =>
    numbers.find((c) => fits.test(headings[c] ?? '') && !but?.test(headings[c] ?? ''));
  const area = named(AREA, SHARE) ?? named(AREA);
  const time = named(TIME) ?? numbers.find((c) => c !== area);
  const second = area ?? numbers.find((c) => c !== time);
  if (time === undefined || second === undefined) return undefined;
  const halfWidth = named(HALF);
  const name = headings.findIndex((heading) => NAME.test(heading));
  return {
    time,
    area: second,
    ...(halfWidth === undefined ? {} : { halfWidth }),
    ...(name < 0 ? {} : { name }),
    inMinutes: SECONDS.test(headings[time] ?? '') ? 1 / 60 : 1,
  };
}

export interface ReportRows {
  readonly rows: readonly Draft[];
  /** Lines of the text that gave no peak, by number. */
  readonly unread: readonly number[];
}

/** The peaks of a report, as the rows of the form hold them; undefined where it holds none. */
export function reportRows(
  text: string,
  subjects: Subjects,
  sign: DecimalSign,
): ReportRows | undefined {
  const table = pastedTable(text);
  const columns = table && columnsOf(table.headings, numberColumns(table));
  if (table === undefined || columns === undefined) return undefined;
  const { time, area, halfWidth, name, inMinutes } = columns;
  const rows = table.rows.map(({ cells }) => {
    const at = (c: number | undefined): number | undefined => {
      const cell = c === undefined ? undefined : cells[c];
      return typeof cell === 'number' ? cell : undefined;
    };
    const width = at(halfWidth);
    const called = name === undefined ? undefined : cells[name];
    return peakDraft(
      {
        retention_min: (at(time) ?? 0) * inMinutes,
        area: at(area) ?? 0,
        ...(width !== undefined && { halfWidth_min: width * inMinutes }),
        ...(typeof called === 'string' && called !== '' && { name: called }),
      },
      subjects,
      sign,
    );
  });
  return { rows, unread: table.unread };
}

/** A peak as it stands in its row. */
export function peakDraft(peak: ChromatogramPeak, subjects: Subjects, sign: DecimalSign): Draft {
  const { retention_min, area, halfWidth_min, foot, name } = peak;
  const known = [subjects.product, ...subjects.others].find(
    (subject) => subject !== undefined && isNamed(subject, name),
  );
  return {
    retention_min: typed(retention_min, 6, sign),
    area: typed(area, 6, sign),
    ...(halfWidth_min !== undefined && { halfWidth_min: typed(halfWidth_min, 4, sign) }),
    ...(foot !== undefined && {
      footWidth_min: typed(foot.width_min, 4, sign),
      footFront_min: typed(foot.front_min, 4, sign),
    }),
    ...(name !== undefined && choosing(whatOf(subjects), known?.substance.name ?? name)),
  };
}
