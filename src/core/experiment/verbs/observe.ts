import type { Observation } from '../move.ts';
import type { Slots } from '../step.ts';
import type { VerbKind } from './kind.ts';
import type { RawSentence, Verb } from './verb.ts';
import { whole } from './verb.ts';
import { FOR, conditions } from './common.ts';

const HEADS = [
  'record',
  'take',
  'measure',
  'determine',
  'run',
  'obtain',
  'acquire',
  'find',
  'note',
  'check',
  'analyse',
  'analyze',
  'monitor',
  'follow',
  'spot',
  'develop',
  'compare',
  'collect',
  'describe',
  'test',
  'characterise',
  'characterize',
  'prepare',
  'record and compare',
  'examine',
  'confirm',
  'read',
  'look at',
  'inspect',
  'weigh and record',
  'watch',
  'observe',
  'smell',
  'note down',
  'write down',
  'label',
  'initial',
];

function textOf(raw: RawSentence): string {
  const { detail, on } = raw.arguments;
  return `${detail?.kind === 'detail' ? detail.text : ''} ${on?.kind === 'ref' ? on.ref.text : ''}`;
}

/** Observations that move no matter: told apart by what is measured, not by the verb. */
function observation(
  kind: VerbKind,
  seen: Observation,
  pattern: RegExp,
  words: Pick<Verb, 'about' | 'forms' | 'examples'> & { shown: string },
): Verb {
  const { shown, ...help } = words;
  return {
    kind,
    ...help,
    heads: HEADS,
    participles: { taken: 'take', found: 'find', run: 'run' },
    object: [{ kind: 'detail', slot: 'detail' }],
    clauses: [
      {
        words: ['of', 'by', 'on', 'from', 'for', 'with', 'to', 'in', 'and', 'as'],
        kind: 'detail',
        slot: 'until',
      },
      FOR,
      { words: ['in', 'from'], kind: 'vessel', slot: 'into' },
    ],
    fits: (raw) =>
      pattern.test(
        `${textOf(raw)} ${raw.arguments.until?.kind === 'detail' ? raw.arguments.until.text : ''}`,
      ),
    resolve(raw, context): Slots {
      const named = context.vesselOf(raw.arguments.into);
      const on =
        (named === undefined ? undefined : whole(named)) ??
        context.role('product') ??
        (context.focus === undefined
          ? whole(context.vessel('the flask', 0))
          : whole(context.focus));
      const rest = raw.arguments.until?.kind === 'detail' ? ` of ${raw.arguments.until.text}` : '';
      const { time, manner } = conditions({
        ...raw,
        arguments: { ...(raw.arguments.time && { time: raw.arguments.time }) },
      });
      return {
        on: [whole(on.vessel)],
        detail: `${textOf(raw).trim()}${rest}`,
        ...(time && { time }),
        manner,
      };
    },
    print: (slots, w) =>
      `Record ${slots.detail ?? shown} from ${w.vessel(slots.on![0]!.vessel)}${w.tail(slots)}`,
    lower: ({ slots }) => [
      {
        kind: 'observe',
        vessel: slots.on![0]!.vessel,
        observation: seen,
        ...(slots.detail !== undefined && { detail: slots.detail }),
      },
    ],
  };
}

export const meltingRange = observation(
  'meltingRange',
  'meltingRange',
  /\bmelting\b|\bm\.? ?p\.?\b|\bmixed melting\b/i,
  {
    about: 'Take a melting range.',
    forms: ['Take the melting range of {contents}'],
    examples: ['Take the melting range of the product'],
    shown: 'the melting range',
  },
);

export const spectrum = observation(
  'spectrum',
  'spectrum',
  /spectr|\bnmr\b|\bir\b|\bftir\b|\bgc\b|\bhplc\b|\buv\b|chromatogra(?:m|phy) trace|refractive index|optical rotation|boiling (?:point|range)|\bdensity\b|\bcolou?r\b|\bappearance\b|\bodou?r\b|\btemperature\b|\bvolume\b|\bpH\b|\byield\b|\blevel\b|\bhead\b|\blabel|\bname\b|\binitials\b/i,
  {
    about: 'Record a spectrum or another measurement of the product.',
    forms: ['Record the IR spectrum of {contents}', 'Measure the refractive index of {contents}'],
    examples: ['Record the IR spectrum of the product'],
    shown: 'a spectrum',
  },
);

export const tlc = observation('tlc', 'tlc', /\btlc\b|thin[- ]layer/i, {
  about: 'Run a thin-layer chromatogram.',
  forms: ['Run a TLC of {contents} in {eluent}'],
  examples: ['Check the reaction by TLC'],
  shown: 'a TLC',
});
