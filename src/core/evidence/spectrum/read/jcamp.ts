import type { Diagnostic } from '../../../diagnostic.ts';
import type { FileReading, MeasuredTrace } from '../trace.ts';
import { blocksOf, type Block } from './block.ts';
import { refusal, warning } from './finding.ts';
import { recordsOf } from './labelled-record.ts';
import { MAX_BLOCKS, MAX_POINTS } from './limits.ts';
import { readSeries } from './read-series.ts';
import { seriesOf } from './series.ts';

/** Where the first record begins; -1 where the text is none of this kind. */
export function jcampStart(text: string): number {
  const beginning = text.slice(0, 20_000);
  const found = /##[ \t]*(?:TITLE|JCAMP[-_ ]?DX)[ \t]*=/i.exec(beginning);
  if (found === null) return -1;
  // Only comments, blanks and a few stray characters may stand before it.
  const before = beginning.slice(0, found.index).split('\n');
  const stray = before.filter((line) => !/^\s*(?:\$\$|##|$)/.test(line)).join('');
  return stray.trim().length <= 8 ? Math.max(0, firstRecord(beginning, found.index)) : -1;
}

/** A record may stand before the title. */
function firstRecord(beginning: string, title: number): number {
  const first = /^[ \t]*##/m.exec(beginning);
  return first !== null && first.index < title ? first.index + first[0].length - 2 : title;
}

interface Outcome {
  readonly traces: readonly MeasuredTrace[];
  readonly problems: readonly Diagnostic[];
}

function readBlocks(text: string, blocks: readonly Block[]): Outcome {
  const traces: MeasuredTrace[] = [];
  const problems: Diagnostic[] = [];
  let room = MAX_POINTS;
  for (const block of blocks)
    for (const series of seriesOf(text, block)) {
      const read = readSeries(text, block, series, room);
      if ('x' in read) {
        traces.push(read);
        room -= read.x.length;
      } else problems.push(read);
    }
  return { traces, problems };
}

function noData(blocks: readonly Block[]): Diagnostic {
  const [block] = blocks;
  const what = block?.headers['DATATYPE'];
  return refusal('file-no-data', {
    message: `The file has ${what === undefined ? 'no spectrum' : `a header for “${what.slice(0, 60)}”`} and no data.`,
    hint: 'An empty record stands for a spectrum that the collection does not have. Look for another.',
    line: block?.line ?? 1,
  });
}

/** Parts that could not be read are named in each trace that could. */
function leftOut({ message, at }: Diagnostic): Diagnostic {
  return warning('file-part-left-out', {
    message: `Another part of the file was not read. ${message}`,
    ...(at === undefined ? {} : { line: at.line }),
  });
}

function tooMany(what: string): FileReading {
  const message = `The file holds ${what}. At most ${MAX_BLOCKS} blocks are read.`;
  return { ok: false, problem: refusal('file-too-many', { message, hint: 'Split the file.' }) };
}

/** Reads a text in JCAMP-DX: every block that holds data, each checked against its own headers. */
export function readJcamp(text: string, start: number): FileReading {
  const records = recordsOf(text, start);
  const titles = records.filter(({ label }) => label === 'TITLE').length;
  if (titles > 2 * MAX_BLOCKS) return tooMany(`${titles} blocks`);
  const { blocks, warnings } = blocksOf(text, records);
  // Complex data have two pages a spectrum.
  const tables = blocks.reduce((sum, { records: own }) => sum + own.length, 0);
  if (blocks.length > MAX_BLOCKS || tables > 4 * MAX_BLOCKS)
    return tooMany(`${blocks.length} blocks and ${tables} tables`);
  const { traces, problems } = readBlocks(text, blocks);
  const [problem] = problems;
  if (traces.length === 0) return { ok: false, problem: problem ?? noData(blocks) };
  const before = text.slice(0, start).trim();
  const stray = before === '' || before.startsWith('$$') ? [] : [strayWarning()];
  const common = [...stray, ...warnings, ...problems.slice(0, 20).map(leftOut)];
  return {
    ok: true,
    format: 'jcamp',
    traces: traces.map((trace) => ({ ...trace, warnings: [...common, ...trace.warnings] })),
  };
}

const strayWarning = (): Diagnostic =>
  warning('file-stray-text', {
    message: 'Stray characters stand before the first label.',
    line: 1,
  });
