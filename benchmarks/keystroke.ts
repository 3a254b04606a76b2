import { tableWith } from '../src/core/chemistry/substance.ts';
import { enact } from '../src/core/enact/enact.ts';
import { programOf } from '../src/core/enact/program.ts';
import { readExperiment } from '../src/core/experiment/read.ts';
import type { Experiment } from '../src/core/experiment/step.ts';
import { seededRandom } from '../src/core/quantity/random.ts';
import { flowSheet } from '../src/core/report/flow/flow.ts';
import { reagentTable } from '../src/core/report/reagents/reagents.ts';
import { theoryReport } from '../src/core/report/theory/theory.ts';
import { documentHere } from './files.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median, quantile, timesOf } from './measure.ts';
import type { Opened } from './opened.ts';
import { opened, openedClean } from './opened.ts';

/** Everything that a page shows of a document beside its text. */
function reportsOf({ experiment, plan }: Opened): unknown {
  return [
    reagentTable(experiment, plan),
    theoryReport(experiment, plan),
    flowSheet(experiment, plan),
  ];
}

const answer = (text: string): unknown => reportsOf(opened(text));

const TYPED = 'aeinorst 0123456789.,;';

/** Texts as they stand after each keystroke of someone who types, rubs out and moves on at random. */
function keystrokes(text: string, heading: string, count: number, seed: number): string[] {
  const { uniform } = seededRandom(seed);
  const start = text.indexOf(`\n${heading}\n`) + heading.length + 2;
  const next = text.indexOf('\n## ', start);
  const texts: string[] = [];
  let current = text;
  let at = start;
  for (let n = 0; n < count; n++) {
    if (n % 6 === 0) {
      current = text;
      at = start + Math.floor(uniform() * (next - start));
    }
    if (n % 6 < 4) {
      const letter = TYPED[Math.floor(uniform() * TYPED.length)]!;
      current = current.slice(0, at) + letter + current.slice(at++);
    } else current = current.slice(0, at - 1) + current.slice(at--);
    texts.push(current);
  }
  return texts;
}

/** A document just opened is read by code that is not compiled yet; that is said apart. */
const WARM = 300;
const FIRST = 30;
const COUNTED = 400;

function timesAt(texts: readonly string[]): number[] {
  return timesOf(texts.length, answer, (n) => texts[n]!);
}

/**
 * Where a keystroke's time goes, one part of the work at a time. `unread` are other keystrokes, since
 * of a sentence that was read before the reading is remembered.
 */
function partsText(texts: readonly string[], unread: readonly string[]): string {
  const part = (times_ms: readonly number[]) => timeText(median(times_ms.slice(WARM)));
  const read = part(timesOf(unread.length, readExperiment, (n) => unread[n]!));
  const reports = part(timesOf(texts.length, reportsOf, (n) => opened(texts[n]!)));
  const enacted = part(
    timesOf(
      texts.length,
      (experiment: Experiment) => enact(programOf(experiment), tableWith(experiment.substances)),
      (n) => readExperiment(texts[n]!),
    ),
  );
  return `Reading ${read}, enacting ${enacted}, the three reports ${reports}.`;
}

/** A substance that no reading before had: what names stand for has to be looked up again. */
function withNewVocabulary(text: string, n: number): string {
  const line = `\n## Substances\n\n- reserve ester ${n}: SMILES CCOC(=O)CCCC; liquid; density 0.87 g/mL\n\n## Vessels\n`;
  return text.replace('\n## Vessels\n', line);
}

const amongText = (place: string, times_ms: readonly number[]) =>
  `A keystroke among the ${place}: median ${timeText(median(times_ms))}, ` +
  `95th percentile ${timeText(quantile(times_ms, 0.95))}.`;

/** One keystroke: the whole text read, enacted and reported on again. */
export function keystroke(): Item[] {
  const text = documentHere('two-hundred.md');
  const { experiment } = openedClean(text, 'two-hundred.md');
  const typedWith = (seed: number) => keystrokes(text, '## Procedure', WARM + COUNTED, seed);
  const typed = typedWith(20_251_014);
  const all_ms = timesAt(typed);
  const inProcedure_ms = all_ms.slice(WARM);
  const inVessels_ms = timesAt(keystrokes(text, '## Vessels', 90, 20_251_015));
  const declared = withNewVocabulary(text, 0);
  const inSubstances_ms = timesAt(keystrokes(declared, '## Substances', 90, 20_251_016));
  const cold_ms = timesOf(24, answer, (n) => withNewVocabulary(text, n)).slice(4);
  return [
    {
      what: `One keystroke in the procedure of a document of ${text.trimEnd().split('\n').length} lines, ${experiment.steps.length} steps: read, enact, reagents, theory, flow sheet`,
      times_ms: inProcedure_ms,
      budget_ms: 8,
      baseline: { what: 'the same with a substance never met before', times_ms: cold_ms },
      remarks: [
        `95th percentile ${timeText(quantile(inProcedure_ms, 0.95))}. ${partsText(typed, typedWith(20_251_017))}`,
        `The first ${FIRST} keystrokes after the program is loaded: median ${timeText(median(all_ms.slice(0, FIRST)))}.`,
        `${amongText('vessels', inVessels_ms)} ${amongText('substances', inSubstances_ms)}`,
      ],
    },
  ];
}
