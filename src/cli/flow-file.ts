import type { FlowSheet } from '../core/report/flow/flow.ts';
import { flowSheetPicture } from '../picture/flow-sheet/flow-sheet.ts';
import { THEMES } from '../picture/flow-sheet/theme.ts';
import type { ThemeName } from '../picture/flow-sheet/theme.ts';
import { flowWords } from '../picture/flow-sheet/words.ts';
import { optionText } from './command.ts';
import type { Call, OptionSpec } from './command.ts';
import type { FileTrouble } from './io.ts';
import { nearestWord } from './nearest.ts';
import { harmless, listed } from './paint/text.ts';
import { planAnswer } from '../core/report/answer/answer.ts';
import type { Asked } from './record-option.ts';
import { runResult } from '../core/report/result/result.ts';

export const SVG_OPTIONS: Readonly<Record<'svg' | 'theme', OptionSpec>> = {
  svg: {
    type: 'string',
    value: 'OUT.svg',
    about: 'Writes the flow sheet as a picture, over a file of that name.',
  },
  theme: {
    type: 'string',
    value: 'NAME',
    about: 'How the picture looks: paper, dark, or print (black on white).',
  },
};

export type Wish =
  | { readonly ok: true; readonly path?: string; readonly theme: ThemeName }
  | { readonly ok: false; readonly message: string; readonly hint?: string };

/** Which picture a call asks for, if any. */
export function wishOf(call: Call): Wish {
  const path = optionText(call, 'svg');
  const theme = optionText(call, 'theme') ?? 'paper';
  const names = Object.keys(THEMES);
  if (!isTheme(theme)) {
    const near = nearestWord(theme, names);
    const message = `There is no theme ${harmless(theme)}.`;
    return { ok: false, message, hint: `Write: --theme ${near ?? listed(names, 'or')}` };
  }
  if (path === undefined)
    return optionText(call, 'theme') === undefined
      ? { ok: true, theme }
      : { ok: false, message: '--theme is of the picture.', hint: 'Write also: --svg OUT.svg' };
  // So that an experiment is never written over by its own picture
  if (!/\.svg$/i.test(path))
    return {
      ok: false,
      message: '--svg takes a name that ends in .svg.',
      hint: 'Write: --svg OUT.svg',
    };
  return { ok: true, path, theme };
}

const isTheme = (name: string): name is ThemeName => Object.hasOwn(THEMES, name);

/** The picture with the sentence that answers the call: what is made, or what the bench got. */
export function pictureOf(sheet: FlowSheet, asked: Asked, theme: ThemeName): string {
  const { opened, bench, run } = asked;
  const answer =
    bench === undefined
      ? planAnswer(opened.experiment, opened.plan).matter.join(' ')
      : runResult(opened, bench).report.sentence;
  return flowSheetPicture(sheet, {
    theme,
    words: flowWords(run, opened.experiment, bench?.run),
    version: opened.version.slice(0, 8),
    ...(answer === '' ? {} : { answer }),
  });
}

const TROUBLES: Readonly<Record<FileTrouble['trouble'], string>> = {
  missing: 'there is no such folder',
  folder: 'it is a folder',
  denied: 'nothing may be written there',
  'too-large': 'it is too large',
  terminal: 'it is no file',
  other: '',
};

export function troubleSentence({ trouble, detail }: FileTrouble, path: string): string {
  const why = TROUBLES[trouble] || (detail ?? '');
  return `The picture cannot be written to ${harmless(path)}${why === '' ? '' : `: ${why}`}.`;
}
