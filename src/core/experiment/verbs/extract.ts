import type { Move } from '../move.ts';
import type { MaterialUse, Slots, Step } from '../step.ts';
import type { Context, RawSentence, Verb } from './verb.ts';
import { whole } from './verb.ts';
import { UNTIL, conditions, oneTurn, parting, react } from './common.ts';

/** An extracting liquid that is water, or dissolved in water, takes the aqueous layer. */
function isAqueous(use: MaterialUse | undefined): boolean {
  const material = use?.material;
  return (
    material !== undefined &&
    (material.substance.phase === 'water' || material.solvent?.phase === 'water')
  );
}

const OPPOSITE: Record<string, string> = {
  organic: 'aqueous',
  aqueous: 'organic',
  upper: 'lower',
  lower: 'upper',
};

function resolve(raw: RawSentence, context: Context): Slots {
  const { arguments: args } = raw;
  const materials = [...context.materials(args.materials), ...context.materials(args.with)];
  const target = context.refOf(args.on) ?? whole(context.vessel('the funnel', 0));
  context.disturb();
  const aqueous = isAqueous(materials[0]);
  const kept = args.keep?.kind === 'keep' ? args.keep : undefined;
  const layer =
    kept?.what === 'upper' ||
    kept?.what === 'lower' ||
    kept?.what === 'organic' ||
    kept?.what === 'aqueous'
      ? kept.what
      : undefined;
  const keep = layer ?? (aqueous ? 'aqueous' : 'organic');
  // "Extract the aqueous layer with ether; combine the organic layers": they join the one kept before
  const earlier =
    kept && kept.vesselPhrase === undefined && !aqueous
      ? context.organicLayers().find((vessel) => vessel !== target.vessel)
      : undefined;
  const into =
    context.vesselOf(args.into) ??
    (kept?.vesselPhrase === undefined
      ? undefined
      : context.vessel(kept.vesselPhrase, kept.start)) ??
    earlier ??
    context.implied(aqueous ? 'aqueous extracts' : 'extracts', 'conical flask', false);
  const on = whole(target.vessel);
  context.setFocus(aqueous ? on.vessel : into);
  context.setRole(aqueous ? 'aqueous' : 'extracts', whole(into));
  context.setLayers(whole(aqueous ? on.vessel : into), whole(aqueous ? into : on.vessel));
  if (aqueous) context.forget('extracts');
  const portioned = target.portion.kind === 'phase' ? [target] : [on];
  return { materials, on: portioned, into, keep, ...conditions(raw) };
}

function lower({ slots }: Step): Move[] {
  const target = slots.on![0]!;
  const { vessel } = target;
  const moves: Move[] = [react(vessel, 'separation')];
  const keep = slots.keep as 'organic' | 'aqueous' | 'upper' | 'lower';
  const wanted = target.portion.kind === 'phase' ? target.portion.phase : undefined;
  if (wanted !== undefined && OPPOSITE[wanted] === keep) {
    // "extract the aqueous layer" while the organic one still stands over it: that one goes first
    moves.push(...parting(target), {
      kind: 'move',
      from: 'vessel',
      vessel,
      take: { kind: 'phase', phase: keep, ifThere: true },
      to: { kind: 'vessel', vessel: slots.into! },
      label: `${keep} layer`,
    });
  }
  for (const use of slots.materials ?? [])
    for (let turn = 0; turn < use.repeat; turn++)
      moves.push(
        oneTurn(use, turn, vessel),
        react(vessel, 'wait'),
        { kind: 'split', vessel, by: { rule: 'layers' } },
        {
          kind: 'move',
          from: 'vessel',
          vessel,
          take: { kind: 'phase', phase: keep },
          to: { kind: 'vessel', vessel: slots.into! },
          label: `${keep} layer`,
        },
      );
  return moves;
}

export const extract: Verb = {
  kind: 'extract',
  about: 'Shake with portions of a solvent and take each layer off.',
  forms: [
    'Extract {vessel} with {material} 3 × {amount}; keep the upper layers in {vessel}',
    'Extract the aqueous layer with {material} {amount}',
  ],
  examples: [
    'Extract the funnel with diethyl ether 3 × 10 mL; keep the upper layers in the extracts flask',
  ],
  heads: ['extract', 'shake', 'extract further', 'extract twice', 'extract again'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    { words: ['with', 'using', 'into'], kind: 'materials', slot: 'materials' },
    { words: ['then with', 'and then with', 'followed by'], kind: 'materials', slot: 'with' },
    {
      words: [
        'keep',
        'keeping',
        'and keep',
        'collect',
        'collecting',
        'and collect',
        'save',
        'saving',
        'combine',
        'combining',
        'and combine',
        'pool',
        'pooling',
        'draining',
        'running',
        'drain',
        'run',
        'draw off',
        'drawing off',
        'transferring',
        'pouring',
        'retain',
        'and draw off',
        'and drain',
      ],
      kind: 'keep',
      slot: 'keep',
    },
    { words: ['into', 'in'], kind: 'vessel', slot: 'into' },
    UNTIL,
  ],
  fits: (raw) => raw.arguments.materials !== undefined,
  resolve,
  print: (slots, w) =>
    `Extract ${w.ref(slots.on![0]!)} with ${w.materials(slots.materials ?? [])}${w.tail(slots)}; keep the ${slots.keep} layers in ${w.vessel(slots.into!)}`,
  lower,
};

/** The same matter moves, the other way round: the word tells the reader why. */
export const backExtract: Verb = {
  ...extract,
  kind: 'backExtract',
  about: 'Extract a wash or an aqueous layer once more, to win back what it took along.',
  forms: [
    'Back-extract the aqueous layer with {material} {amount}; keep the organic layer in {vessel}',
  ],
  examples: [
    'Back-extract the aqueous layer with ethyl acetate 10 mL; keep the organic layer in the extracts flask',
  ],
  heads: ['back-extract', 'back extract', 're-extract', 'reextract'],
  print: (slots, w) =>
    `Back-extract ${w.ref(slots.on![0]!)} with ${w.materials(slots.materials ?? [])}${w.tail(slots)}; keep the ${slots.keep} layers in ${w.vessel(slots.into!)}`,
};
