import { EXIT, optionText, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { documentOf, titleLine } from '../experiment-file.ts';
import { paintYield } from '../paint/yield.ts';
import { paragraph } from '../paint/text.ts';
import { RECORD_OPTION, doubtLine, hasErrors, openAsked } from '../record-option.ts';
import { runResult } from '../../core/report/result/result.ts';

async function run(call: Call): Promise<Answer> {
  if (optionText(call, 'record') === undefined)
    return refusal(
      'A yield needs what a bench weighed.',
      'Add --record FILE: a table that begins with kind,step,item,vessel,value,unit. What theory allows: weighboat reagents',
    );
  const opening = await openAsked(call);
  if (!opening.ok) return opening.answer;
  const { asked } = opening;
  const { opened, bench } = asked;
  const answer = runResult(opened, bench!);
  const serious = answer.report.findings.some((one) => one.severity === 'error');
  return {
    kind: 'answer',
    exit: serious || hasErrors(asked) ? EXIT.findings : EXIT.fine,
    data: {
      document: documentOf(opened),
      record: bench!.path,
      ...answer.report,
      balance: answer.balance ?? null,
      diagnostics: answer.diagnostics,
    },
    paint: (paper) =>
      [
        paintYield(answer, paper),
        '',
        paper.ink.faint(paragraph(titleLine(opened), paper.width)),
        paper.ink.faint(paragraph(doubtLine(asked), paper.width)),
      ].join('\n'),
    remarks: asked.remarks,
  };
}

export const yieldCommand: Command = {
  name: 'yield',
  summary: 'the percent yield of a bench, with its uncertainty and where the rest went',
  takes: 'FILE --record FILE',
  about:
    'Puts what a bench weighed in place of the plan and says the yield in a sentence; then theory, where ' +
    'the theoretical mass went, which weighing makes the uncertainty, what to look at, and what was assumed.',
  options: { record: RECORD_OPTION },
  examples: [
    'yield aspirin.md --record bench-1.csv',
    'yield aspirin.md --record bench-1.csv --json',
  ],
  arity: [1, 1],
  run,
};
