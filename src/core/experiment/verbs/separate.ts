import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { conditions, react } from './common.ts';

const OTHER = { organic: 'aqueous', aqueous: 'organic', upper: 'lower', lower: 'upper' } as const;
type Layer = keyof typeof OTHER;

export const separate: Verb = {
  kind: 'separate',
  about: 'Part two layers; the one that is kept stays, or goes into the vessel named.',
  forms: ['Separate the layers; keep the organic layer in {vessel}', 'Separate the layers'],
  examples: ['Separate the layers; keep the organic layer in the conical flask'],
  heads: [
    'separate',
    'part',
    'split',
    'separate off',
    'run off',
    'draw off',
    'drain off',
    'remove',
    'separate and discard',
  ],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    {
      words: [
        'keep',
        'keeping',
        'and keep',
        'collect',
        'collecting',
        'and collect',
        'save',
        'retain',
        'retaining',
        'saving',
        'draining',
        'running',
        'drain',
        'run',
        'draw off',
        'and draw off',
        'drawing off',
        'and drain',
        'returning',
      ],
      kind: 'keep',
      slot: 'keep',
    },
    { words: ['into', 'in'], kind: 'vessel', slot: 'into' },
    { words: ['in', 'from'], kind: 'ref', slot: 'range' },
  ],
  fits: (raw) =>
    raw.head === 'separate' ||
    raw.head === 'part' ||
    raw.head === 'separate off' ||
    (raw.arguments.on?.kind === 'ref' &&
      ['organic', 'aqueous', 'upper', 'lower'].includes(raw.arguments.on.ref.role ?? '')),
  resolve(raw, context) {
    const { arguments: args } = raw;
    const source = args.range ? context.refOf(args.range) : context.refOf(args.on);
    const vessel = source?.vessel ?? context.vessel('the funnel', 0);
    const kept = args.keep?.kind === 'keep' ? args.keep : undefined;
    const named = args.on?.kind === 'ref' ? args.on.ref.role : undefined;
    const fromObject =
      named === 'organic' || named === 'aqueous' || named === 'upper' || named === 'lower'
        ? named
        : undefined;
    const keep: Layer =
      kept && kept.what in OTHER ? (kept.what as Layer) : (fromObject ?? 'organic');
    const stated =
      context.vesselOf(args.into) ??
      (kept?.vesselPhrase === undefined
        ? undefined
        : context.vessel(kept.vesselPhrase, kept.start));
    const into =
      stated ?? (kept ? undefined : context.implied(`${keep} layer`, 'conical flask', false));
    const otherInto =
      into === undefined ? context.implied(`${OTHER[keep]} layer`, 'beaker', false) : undefined;
    const keptIn = into ?? vessel;
    const otherIn = otherInto ?? vessel;
    const what = keep === 'upper' || keep === 'lower' ? context.layerIs(keep) : keep;
    const organic = what === 'organic' ? keptIn : otherIn;
    context.setLayers(whole(organic), whole(organic === keptIn ? otherIn : keptIn));
    context.setFocus(keptIn);
    return {
      on: [whole(vessel)],
      keep,
      ...(into !== undefined && { into }),
      ...(otherInto !== undefined && { otherInto }),
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    `Separate the layers in ${w.vessel(slots.on![0]!.vessel)}${w.tail(slots)}; keep the ${slots.keep} layer${slots.into === undefined ? '' : ` in ${w.vessel(slots.into)}`}`,
  lower({ slots }) {
    const { vessel } = slots.on![0]!;
    const keep = slots.keep as Layer;
    const [phase, into] =
      slots.into === undefined ? [OTHER[keep], slots.otherInto!] : [keep, slots.into];
    return [
      react(vessel, 'separation'),
      { kind: 'split', vessel, by: { rule: 'layers' } },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase },
        to: { kind: 'vessel', vessel: into },
        label: `${phase} layer`,
      },
    ] satisfies Move[];
  },
};
