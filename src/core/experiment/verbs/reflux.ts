import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { CONDITIONS, conditions, fromStock, gather, pour, react, waiting } from './common.ts';

export const reflux: Verb = {
  kind: 'reflux',
  about: 'Boil under a condenser; with a Dean–Stark trap the water leaves for the trap.',
  forms: [
    'Reflux {vessel} for {time}',
    'Heat {vessel} under reflux for {time}',
    'Reflux {vessel} with a Dean–Stark trap for {time}',
  ],
  examples: [
    'Reflux the flask for 45 min',
    'Heat the mixture under reflux with a Dean–Stark trap for 1 h',
  ],
  heads: [
    'reflux',
    'heat',
    'boil',
    'bring',
    'warm',
    'reflux gently',
    'heat gently',
    'continue refluxing',
    'heat strongly',
  ],
  participles: { refluxed: 'reflux' },
  object: [{ kind: 'ref', slot: 'on' }],
  clauses: [
    ...CONDITIONS,
    { words: ['with', 'in', 'together with'], kind: 'materials', slot: 'materials' },
    { words: ['in'], kind: 'vessel', slot: 'otherInto' },
    { words: ['into', 'collecting the water in'], kind: 'vessel', slot: 'into' },
  ],
  manners: {
    'under reflux': 'reflux',
    'at reflux': 'reflux',
    'to reflux': 'reflux',
    'to a gentle reflux': 'reflux',
    'at a gentle reflux': 'reflux',
    'under gentle reflux': 'reflux',
    'to gentle reflux': 'reflux',
    'under a reflux condenser': 'reflux',
    'with a reflux condenser': 'reflux',
    'under the reflux condenser': 'reflux',
    'with a dean–stark trap': 'Dean–Stark',
    'with a dean-stark trap': 'Dean–Stark',
    'under a dean–stark trap': 'Dean–Stark',
    'under a dean-stark trap': 'Dean–Stark',
    'with the dean–stark trap': 'Dean–Stark',
    'with the dean-stark trap': 'Dean–Stark',
    'under the dean–stark trap': 'Dean–Stark',
    'under the dean-stark trap': 'Dean–Stark',
    'in a dean–stark apparatus': 'Dean–Stark',
    'in a dean-stark apparatus': 'Dean–Stark',
    'with a dean–stark apparatus': 'Dean–Stark',
    'with a dean-stark apparatus': 'Dean–Stark',
    'with a dean stark trap': 'Dean–Stark',
    'using a dean–stark trap': 'Dean–Stark',
    'using a dean-stark trap': 'Dean–Stark',
    'with a water separator': 'Dean–Stark',
    'under a water separator': 'Dean–Stark',
    'with a drying tube': 'drying tube',
    'under a drying tube': 'drying tube',
  },
  fits: (raw) =>
    raw.manner.includes('reflux') || raw.manner.includes('Dean–Stark') || /reflux/.test(raw.head),
  resolve(raw, context) {
    const { uses } = gather(context, raw);
    const from = context.refOf(raw.arguments.on);
    const flask =
      raw.arguments.otherInto === undefined ? undefined : context.vesselOf(raw.arguments.otherInto);
    const moved =
      flask !== undefined && from !== undefined && from.vessel !== flask ? from : undefined;
    if (moved && flask) context.moved(moved.vessel, flask);
    const on =
      moved && flask
        ? whole(flask)
        : (from ?? { vessel: context.vessel('the flask', 0), portion: { kind: 'all' as const } });
    // A trap that an earlier sentence attached to this flask is there still
    const attached = context.aside(`trap on ${on.vessel}`);
    const trap =
      attached ??
      (raw.manner.includes('Dean–Stark')
        ? (context.vesselOf(raw.arguments.into) ??
          context.implied('Dean–Stark trap', 'trap', false))
        : undefined);
    context.setFocus(on.vessel);
    return {
      ...(uses.length > 0 && { materials: uses }),
      on: moved ? [on, moved] : [on],
      ...(trap !== undefined && { into: trap }),
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    `${slots.manner.includes('reflux') ? 'Heat' : 'Reflux'} ${w.ref(slots.on![1] ?? slots.on![0]!)}${slots.materials ? ` with ${w.materials(slots.materials)}` : ''}${slots.on![1] ? ` in ${w.vessel(slots.on![0]!.vessel)}` : ''}${w.tail(slots)}${slots.into === undefined ? '' : `, collecting the water in ${w.vessel(slots.into)}`}`,
  lower({ slots }) {
    const { vessel } = slots.on![0]!;
    const moves: Move[] = [
      ...(slots.on ?? []).slice(1).flatMap((ref) => pour(ref, vessel)),
      ...fromStock(slots.materials, vessel),
      ...(slots.materials ? [react(vessel, 'contact')] : []),
      waiting(vessel, slots, 'reflux', true),
      react(vessel, 'wait'),
    ];
    if (slots.into !== undefined)
      moves.push(
        { kind: 'split', vessel, by: { rule: 'azeotrope' } },
        {
          kind: 'move',
          from: 'vessel',
          vessel,
          take: { kind: 'phase', phase: 'vapour' },
          to: { kind: 'vessel', vessel: slots.into },
          label: 'water',
        },
      );
    return moves;
  },
};
