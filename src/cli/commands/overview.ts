import { flowSheet } from '../../core/report/flow/flow.ts';
import { reagentTable } from '../../core/report/reagents/reagents.ts';
import { EXIT } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { documentOf, titleLine } from '../experiment-file.ts';
import { flowPicture } from '../flow-picture-of.ts';
import { summaryOf } from '../paint/diagnostics.ts';
import { paintFlow } from '../paint/flow.ts';
import type { Paper } from '../paint/ink.ts';
import { paragraph } from '../paint/text.ts';
import { paintYield } from '../paint/yield.ts';
import { planAnswer } from '../../core/report/answer/answer.ts';
import { RECORD_OPTION, hasErrors, openAsked } from '../record-option.ts';
import type { Asked } from '../record-option.ts';
import { runResult } from '../../core/report/result/result.ts';
import { paintReagentPage } from './reagents.ts';

const quoted = (path: string) => (/^[\w./\\:-]+$/.test(path) ? path : `"${path}"`);

/** How to go on from here, with the very paths that were given. */
function nextLines({ opened, bench }: Asked): string[] {
  const file = quoted(opened.path);
  const record = bench === undefined ? 'FILE' : quoted(bench.path);
  return [
    `  npx weighboat check ${file}`,
    `  npx weighboat ledger ${file} --accounts`,
    `  npx weighboat yield ${file} --record ${record}`,
    '  npx weighboat --help',
  ];
}

function paintOverview(asked: Asked, paper: Paper): string {
  const { opened, bench } = asked;
  const { ink, width } = paper;
  const head = (text: string) => `\n${ink.accent('■')} ${ink.bold(text)}\n`;
  const sheet = flowSheet(opened.experiment, opened.plan);
  const parts = [
    ink.bold(paragraph(titleLine(opened), width)),
    ...planAnswer(opened.experiment, opened.plan).sentences.map((sentence) =>
      paragraph(sentence, width),
    ),
    summaryOf(opened.diagnostics),
    head('Flow sheet'),
    sheet.rows.length === 0
      ? 'No step is understood yet.'
      : paintFlow(flowPicture(sheet, opened.plan, opened.experiment), paper),
    head('Reagents'),
    paintReagentPage({ ...asked, run: opened.plan }, paper),
  ];
  if (bench !== undefined)
    parts.push(
      head(`Yield of the bench in ${bench.path}`),
      paintYield(runResult(opened, bench), paper),
    );
  parts.push(head('To go on'), ...nextLines(asked));
  return parts.join('\n');
}

async function run(call: Call): Promise<Answer> {
  const opening = await openAsked(call);
  if (!opening.ok) return opening.answer;
  const { asked } = opening;
  const { opened, bench } = asked;
  return {
    kind: 'answer',
    exit: hasErrors(asked) ? EXIT.findings : EXIT.fine,
    data: {
      document: documentOf(opened),
      answer: planAnswer(opened.experiment, opened.plan).sentences,
      diagnostics: opened.diagnostics,
      flow: flowSheet(opened.experiment, opened.plan),
      reagents: reagentTable(opened.experiment, opened.plan),
      yield: bench === undefined ? null : runResult(opened, bench),
    },
    paint: (paper) => paintOverview(asked, paper),
    remarks: asked.remarks,
  };
}

export const overviewCommand: Command = {
  name: 'overview',
  summary: 'the answer, the flow sheet, the reagents and a bench’s yield on one page',
  takes: 'FILE',
  about: 'Prints on one page what check, flow, reagents and yield say one by one.',
  options: { record: RECORD_OPTION },
  examples: ['overview aspirin.md', 'overview aspirin.md --record bench-1.csv'],
  arity: [1, 1],
  run,
};
