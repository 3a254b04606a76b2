import { reagentTable } from '../../core/report/reagents/reagents.ts';
import { uncounted } from '../../core/report/uncounted/uncounted.ts';
import { EXIT } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { documentOf, titleLine } from '../experiment-file.ts';
import type { Paper } from '../paint/ink.ts';
import { paintReagents } from '../paint/reagents.ts';
import { planAnswer } from '../../core/report/answer/answer.ts';
import { paragraph } from '../paint/text.ts';
import { RECORD_OPTION, doubtLine, hasErrors, openAsked } from '../record-option.ts';
import type { Asked } from '../record-option.ts';

/** The table and what belongs under it: products, assumptions, what is not counted. */
export function paintReagentPage(asked: Asked, paper: Paper): string {
  const table = reagentTable(asked.opened.experiment, asked.run);
  const missing = uncounted(asked.opened.experiment, asked.run);
  const parts = [paintReagents(table, paper)];
  for (const said of table.theory.said) parts.push(paragraph(said, paper.width));
  if (missing.length > 0) {
    const list = missing.map(
      ({ name, text, step }) => `${name}${text === '' ? '' : ` (${text})`}, step ${step}`,
    );
    parts.push(paragraph(`Not counted: ${list.join('; ')}.`, paper.width));
  }
  return parts.join('\n');
}

async function run(call: Call): Promise<Answer> {
  const opening = await openAsked(call);
  if (!opening.ok) return opening.answer;
  const { asked } = opening;
  const { opened } = asked;
  return {
    kind: 'answer',
    exit: hasErrors(asked) ? EXIT.findings : EXIT.fine,
    data: {
      document: documentOf(opened),
      run: asked.run.kind,
      ...reagentTable(opened.experiment, asked.run),
      uncounted: uncounted(opened.experiment, asked.run),
    },
    paint: (paper) =>
      [
        ...planAnswer(opened.experiment, asked.run).matter.map((sentence) =>
          paragraph(sentence, paper.width),
        ),
        paper.ink.faint(paragraph(titleLine(opened), paper.width)),
        '',
        paintReagentPage(asked, paper),
        paper.ink.faint(paragraph(doubtLine(asked), paper.width)),
      ].join('\n'),
    remarks: asked.remarks,
  };
}

export const reagentsCommand: Command = {
  name: 'reagents',
  summary: 'the reagent table: what is taken, in moles and equivalents, and what limits',
  takes: 'FILE',
  about:
    'Lists every material with its mass, volume, moles and equivalents, says which one limits and how ' +
    'much of the others is left, and what the products weigh in theory.',
  options: { record: RECORD_OPTION },
  examples: [
    'reagents aspirin.md',
    'reagents aspirin.md --json',
    'reagents aspirin.md --record bench-1.csv',
  ],
  arity: [1, 1],
  run,
};
