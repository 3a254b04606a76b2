import { EXIT } from '../command.ts';
import type { Answer } from '../command.ts';
import { harmless, paragraph } from '../paint/text.ts';

/** The answer of a command that did what it was asked for, in sentences. */
export function done(data: object, ...sentences: readonly string[]): Answer {
  return {
    kind: 'answer',
    exit: EXIT.fine,
    data,
    paint: ({ width }) => sentences.map((text) => paragraph(harmless(text), width)).join('\n'),
  };
}
