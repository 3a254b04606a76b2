import { flowSheet } from '../../core/report/flow/flow.ts';
import { EXIT, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { documentOf, titleLine } from '../experiment-file.ts';
import { SVG_OPTIONS, pictureOf, troubleSentence, wishOf } from '../flow-file.ts';
import { flowPicture } from '../flow-picture-of.ts';
import { paintFlow } from '../paint/flow.ts';
import { harmless, paragraph } from '../paint/text.ts';
import { RECORD_OPTION, doubtLine, hasErrors, openAsked } from '../record-option.ts';

async function run(call: Call): Promise<Answer> {
  const wish = wishOf(call);
  if (!wish.ok) return refusal(wish.message, wish.hint);
  const opening = await openAsked(call);
  if (!opening.ok) return opening.answer;
  const { asked } = opening;
  const { opened } = asked;
  const sheet = flowSheet(opened.experiment, asked.run);
  const exit = hasErrors(asked) ? EXIT.findings : EXIT.fine;
  const about = { document: documentOf(opened), run: asked.run.kind };
  if (wish.path !== undefined) {
    const { path } = wish;
    const trouble = await call.io.write(path, pictureOf(sheet, asked, wish.theme));
    if (trouble !== undefined) return refusal(troubleSentence(trouble, path));
    return {
      kind: 'answer',
      exit,
      data: { ...about, picture: path, flow: sheet },
      paint: (paper) =>
        [
          paragraph(`The flow sheet is written to ${harmless(path)}.`, paper.width),
          paper.ink.faint(paragraph(doubtLine(asked), paper.width)),
        ].join('\n'),
      remarks: asked.remarks,
    };
  }
  return {
    kind: 'answer',
    exit,
    data: { ...about, flow: sheet },
    paint: (paper) =>
      [
        paper.ink.bold(paragraph(titleLine(opened), paper.width)),
        '',
        sheet.rows.length === 0
          ? 'The document has no step that is understood, so there is nothing to draw.'
          : paintFlow(flowPicture(sheet, asked.run, opened.experiment, asked.bench?.run), paper),
        paper.ink.faint(paragraph(doubtLine(asked), paper.width)),
      ].join('\n'),
    remarks: asked.remarks,
  };
}

export const flowCommand: Command = {
  name: 'flow',
  summary: 'the flow sheet: every vessel after every step, and what passes between them',
  takes: 'FILE',
  about:
    'Draws the experiment: time runs down, each vessel is a column that lasts while it holds something, ' +
    'matter runs across from the stock to what leaves. On a page under 80 columns it is a list. ' +
    'With --svg it is a picture, every vessel and every layer in it to scale.',
  options: { record: RECORD_OPTION, ...SVG_OPTIONS },
  examples: [
    'flow aspirin.md',
    'flow aspirin.md --width 70',
    'flow aspirin.md --record bench-1.csv',
    'flow aspirin.md --svg aspirin.svg --theme print',
  ],
  arity: [1, 1],
  run,
};
