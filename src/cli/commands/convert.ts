import type { Diagnostic } from '../../core/diagnostic.ts';
import { infraredOf } from '../../core/evidence/spectrum/to-infrared.ts';
import { CRYSTALS, correctAtr } from '../../core/evidence/spectrum/treat/atr.ts';
import type { Crystal } from '../../core/evidence/spectrum/treat/atr.ts';
import type { MeasuredTrace } from '../../core/evidence/spectrum/trace.ts';
import { writeJcamp } from '../../core/evidence/spectrum/write/jcamp.ts';
import { writeTable } from '../../core/evidence/spectrum/write/table.ts';
import { EXIT, optionText, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import type { Paper } from '../paint/ink.ts';
import { harmless, listed, paragraph } from '../paint/text.ts';
import { openSpectrum } from '../spectrum-file.ts';

const WRITERS: Readonly<Record<string, (trace: MeasuredTrace) => string>> = {
  jdx: (trace) => writeJcamp(trace),
  dx: (trace) => writeJcamp(trace),
  csv: (trace) => writeTable(trace, { separator: ',' }),
  tsv: (trace) => writeTable(trace, { separator: '\t' }),
  txt: (trace) => writeTable(trace, { separator: '\t' }),
};

const endingOf = (path: string): string => /\.([^./\\]+)$/.exec(path)?.[1]?.toLowerCase() ?? '';

/** "Ethanol, 850 points, 600 to 3996 1/cm" */
function traceLine({ title, x, xUnit, yUnit }: MeasuredTrace): string {
  const span = x.length === 0 ? '' : `, ${x[0]} to ${x.at(-1)} ${xUnit}, ${yUnit}`;
  return `${harmless(title) || 'Without a title'}: ${x.length} points${span}`;
}

type Treated =
  | { readonly ok: true; readonly trace: MeasuredTrace; readonly said: readonly Diagnostic[] }
  | { readonly ok: false; readonly message: string; readonly hint?: string };

/** With `--atr`, the absorbance that the sample would have in transmission; else as it is. */
function treatedAs(trace: MeasuredTrace, crystal: string | undefined): Treated {
  if (crystal === undefined) return { ok: true, trace, said: [] };
  if (!Object.hasOwn(CRYSTALS, crystal))
    return {
      ok: false,
      message: `There is no crystal ${harmless(crystal)}.`,
      hint: `It is one of ${listed(Object.keys(CRYSTALS), 'or')}.`,
    };
  const made = infraredOf(trace, { state: 'atr' });
  if (!made.ok)
    return {
      ok: false,
      message: made.problem.message,
      ...(made.problem.hint !== undefined && { hint: made.problem.hint }),
    };
  const { spectrum, settled, misfit } = correctAtr(made.spectrum, { crystal: crystal as Crystal });
  const { wavenumber_percm: x, absorbance: y } = spectrum;
  const rough: Diagnostic = {
    code: 'atr-not-settled',
    severity: 'warning',
    message: `The correction did not settle: it is off by ${(100 * misfit).toFixed(1)} % of the highest band.`,
    hint: 'Take positions from it, and no heights.',
  };
  return {
    ok: true,
    trace: { ...trace, x, y, xUnit: '1/cm', yUnit: 'absorbance', state: 'corrected from ATR' },
    said: [...made.diagnostics, ...(settled ? [] : [rough])],
  };
}

async function run(call: Call): Promise<Answer> {
  const [from = '', to = ''] = call.args;
  const write = WRITERS[endingOf(to)];
  if (write === undefined)
    return refusal(
      'The second name says what is written: it ends in .jdx, .csv or .tsv.',
      'As in: weighboat convert SPECTRUM.csv SPECTRUM.jdx',
    );
  if (from === to) return refusal('The file would be written over itself.', 'Give another name.');
  const opened = await openSpectrum(from, call.io);
  if (!opened.ok) return refusal(opened.message, opened.hint);
  const wanted = optionText(call, 'block') ?? '1';
  const trace = opened.traces[Number(wanted) - 1];
  if (trace === undefined)
    return refusal(
      `There is no spectrum ${harmless(wanted)} in ${harmless(from)}.`,
      `It holds ${opened.traces.length}, counted from 1.`,
    );
  const treated = treatedAs(trace, optionText(call, 'atr'));
  if (!treated.ok) return refusal(treated.message, treated.hint);
  const trouble = await call.io.write(to, write(treated.trace));
  if (trouble !== undefined)
    return refusal(`${harmless(to)} cannot be written.`, 'Is there such a folder, and room?');
  const warnings = [...trace.warnings, ...treated.said];
  return {
    kind: 'answer',
    exit: warnings.length > 0 ? EXIT.findings : EXIT.fine,
    data: { from, to, title: trace.title, points: trace.x.length, warnings },
    paint: (paper) => paintConverted(treated.trace, warnings, to, opened.traces.length, paper),
  };
}

function paintConverted(
  trace: MeasuredTrace,
  warnings: readonly Diagnostic[],
  to: string,
  traces: number,
  { width, ink }: Paper,
) {
  return [
    paragraph(traceLine(trace), width),
    paragraph(`Written to ${harmless(to)}.`, width),
    ...warnings.map((one) => paragraph(harmless(one.message), width)),
    ...(traces > 1
      ? [ink.faint(paragraph(`The file holds ${traces} spectra; --block takes another.`, width))]
      : []),
  ].join('\n');
}

export const convertCommand: Command = {
  name: 'convert',
  summary: 'a spectrum from one kind of file to another: JCAMP-DX and tables',
  takes: 'FILE OUT',
  about:
    'Reads what an instrument wrote (JCAMP-DX 4.24 to 5.01 or a table) and writes it as JCAMP-DX (.jdx) ' +
    'or as a table (.csv, .tsv), every point as it was. What was odd in the file is said.',
  options: {
    atr: {
      type: 'string',
      value: 'CRYSTAL',
      about:
        'Corrects an ATR spectrum to what a transmitted beam would show, for 45° and a sample of ' +
        'refractive index 1.5: diamond, zincSelenide or germanium.',
    },
    block: { type: 'string', value: 'N', about: 'Which spectrum of a file that holds several.' },
  },
  examples: [
    'convert product.csv product.jdx',
    'convert nmr.dx nmr.csv --block 2',
    'convert atr.jdx film.jdx --atr diamond',
  ],
  arity: [2, 2],
  run,
};
