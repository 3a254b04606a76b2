import { EXIT } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { documentOf, openExperiment, titleLine } from '../experiment-file.ts';
import type { Opened } from '../experiment-file.ts';
import { planAnswer } from '../../core/report/answer/answer.ts';
import { paintDiagnostics, summaryOf } from '../paint/diagnostics.ts';
import type { Paper } from '../paint/ink.ts';
import { paragraph } from '../paint/text.ts';

function paintCheck(opened: Opened, paper: Paper): string {
  const { ink, width } = paper;
  const { sentences } = planAnswer(opened.experiment, opened.plan);
  const found = paintDiagnostics(opened.diagnostics, opened.text, paper);
  return [
    ink.bold(summaryOf(opened.diagnostics)),
    ...sentences.map((sentence) => paragraph(sentence, width)),
    ink.faint(paragraph(titleLine(opened), width)),
    ...(found === '' ? [] : ['', found]),
  ].join('\n');
}

async function run({ args, io }: Call): Promise<Answer> {
  const opening = await openExperiment(args[0]!, io);
  if (!opening.ok) return opening.answer;
  const { opened } = opening;
  return {
    kind: 'answer',
    exit: opened.diagnostics.some((one) => one.severity === 'error') ? EXIT.findings : EXIT.fine,
    data: {
      document: documentOf(opened),
      summary: summaryOf(opened.diagnostics),
      answer: planAnswer(opened.experiment, opened.plan).sentences,
      diagnostics: opened.diagnostics,
    },
    paint: (paper) => paintCheck(opened, paper),
    remarks: opened.remarks,
  };
}

export const checkCommand: Command = {
  name: 'check',
  summary: 'what is wrong or doubtful in an experiment, and what it makes',
  takes: 'FILE',
  about:
    'Reads an experiment, enacts it and says what it makes, what limits and which gas comes off; ' +
    'then every mistake and remark with its line, the words meant, and what to do.',
  options: {},
  examples: ['check aspirin.md', 'check - < aspirin.md'],
  arity: [1, 1],
  run,
};
