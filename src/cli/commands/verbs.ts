import { VERBS } from '../../core/experiment/verbs/index.ts';
import { EXIT, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { nearestWord } from '../nearest.ts';
import type { Paper } from '../paint/ink.ts';
import { harmless, paragraph } from '../paint/text.ts';

type Shown = (typeof VERBS)[number];

function paintVerb(verb: Shown, { ink, width }: Paper): string {
  return [
    ink.bold(verb.kind),
    paragraph(verb.about, width, '  '),
    ink.faint(paragraph(`Begins with: ${verb.heads.join(', ')}`, width, '  ', '    ')),
    ...verb.forms.map((form) => paragraph(form, width, '    ')),
    ...verb.examples.map((example) =>
      ink.italic(paragraph(`${example}”`, width, '    “', '     ')),
    ),
  ].join('\n');
}

function run({ args }: Call): Answer {
  const [word] = args;
  const wanted = word?.toLowerCase();
  const shown = VERBS.filter(
    (verb) =>
      wanted === undefined || verb.kind.toLowerCase() === wanted || verb.heads.includes(wanted),
  );
  if (shown.length === 0 && word !== undefined) {
    const near = nearestWord(
      word,
      VERBS.flatMap((verb) => [verb.kind, ...verb.heads]),
    );
    return refusal(
      `No verb is written ${harmless(word)}.`,
      near === undefined ? 'All of them: weighboat verbs' : `Is it: ${near}`,
    );
  }
  const data = shown.map(({ kind, about, heads, forms, examples }) => ({
    kind,
    about,
    heads,
    forms,
    examples,
  }));
  return {
    kind: 'answer',
    exit: EXIT.fine,
    data,
    paint: (paper) => shown.map((verb) => paintVerb(verb, paper)).join('\n\n'),
  };
}

export const verbsCommand: Command = {
  name: 'verbs',
  summary: 'the unit operations that a sentence can name, with their forms',
  takes: '[VERB]',
  about: 'Lists every verb that a procedure can use, how its sentence is written, and an example.',
  options: {},
  examples: ['verbs', 'verbs extract'],
  arity: [0, 1],
  run,
};
