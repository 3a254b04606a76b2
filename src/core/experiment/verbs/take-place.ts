import type { Verb } from './verb.ts';
import { whole } from './verb.ts';

const SENTENCE =
  /^(?:let |allow )?(?:the )?(.{1,60}?)\s+(?:takes place|take place|happens|happen|occurs|runs|run|is complete|is over|goes|go|to run|proceeds)(?: here| now| in the ([\p{L}\p{N} –-]+?))?(?:,?\s+(?:to|at|with)\s+(\d+(?:[.,]\d+)?)\s*%(?:\s+conversion)?)?(?:\s+to completion)?$/iu;

/** The author's word on when a declared reaction runs. */
export const takePlace: Verb = {
  kind: 'takePlace',
  about: 'Say that a declared reaction runs here, and how far.',
  forms: ['The {reaction} takes place', 'The {reaction} takes place to 80 % conversion'],
  examples: ['The reduction takes place', 'Reaction 2 takes place in the beaker'],
  heads: [],
  clauses: [],
  direct(text) {
    const match = SENTENCE.exec(text.trim());
    // "Cool the mixture until crystallisation is complete" tells when to stop
    if (
      !match ||
      /\b(?:until|when|while|after|once|till)\b/i.test(match[1]!) ||
      /,|\b(?:until|till|when|once|if|after|before)\b/i.test(match[1]!) ||
      !/react|tion\b|ation|lysis|coupling|addition|step \d/i.test(match[1]!)
    )
      return undefined;
    const detail = `${match[1]!.trim()}|${match[3]?.replace(',', '.') ?? ''}`;
    return {
      verb: 'takePlace',
      head: 'takes place',
      arguments: {
        detail: { kind: 'detail', text: detail },
        ...(match[2] !== undefined && { on: { kind: 'vessel', phrase: match[2], start: 0 } }),
      },
      manner: [],
      unexplained: [],
    };
  },
  resolve(raw, context) {
    const vessel =
      context.vesselOf(raw.arguments.on) ?? context.focus ?? context.vessel('the flask', 0);
    const detail = raw.arguments.detail?.kind === 'detail' ? raw.arguments.detail.text : '';
    return { on: [whole(vessel)], detail, manner: [] };
  },
  print: (slots, w) => {
    const [name, conversion] = (slots.detail ?? '').split('|');
    return `The ${name} takes place in ${w.vessel(slots.on![0]!.vessel)}${conversion ? ` to ${conversion} % conversion` : ''}`;
  },
  lower: ({ slots }) => {
    const [name, conversion] = (slots.detail ?? '').split('|');
    const { vessel } = slots.on![0]!;
    return [
      {
        kind: 'react',
        vessel,
        trigger: 'stated',
        ...(name && !/^reaction$/i.test(name) && { reaction: name.toLowerCase() }),
        ...(conversion && { conversion: Number(conversion) / 100 }),
      },
    ];
  },
};
