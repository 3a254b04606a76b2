import type { Verb } from './verb.ts';
import { FOR, conditions } from './common.ts';

/** An inert gas moves no matter that is counted: it is kept as a condition of the vessel. */
export const blanket: Verb = {
  kind: 'blanket',
  about: 'Degas, flush or keep under an inert gas.',
  forms: ['Flush {vessel} with nitrogen for {time}', 'Degas {vessel} with argon', 'Put {vessel} under nitrogen'],
  examples: ['Flush the flask with nitrogen for 5 min', 'Keep the flask under nitrogen'],
  heads: ['degas', 'flush', 'purge', 'blanket', 'sparge', 'put', 'place', 'keep', 'evacuate', 'set', 'fill', 'connect', 'fit', 'assemble', 'equip', 'attach'],
  participles: { fitted: 'fit', kept: 'keep', put: 'put' },
  object: [{ kind: 'ref', slot: 'on' }, { kind: 'vessel', slot: 'on' }],
  clauses: [{ words: ['with', 'for', 'to', 'and', 'by', 'for use with'], kind: 'detail', slot: 'detail' }, FOR],
  fits: (raw) => {
    if (/^(?:degas|flush|purge|blanket|sparge|evacuate)$/.test(raw.head)) return true;
    if (raw.manner.some((m) => m === 'under nitrogen' || m === 'under argon')) return true;
    const detail = raw.arguments.detail?.kind === 'detail' ? raw.arguments.detail.text : '';
    return /^(?:fit|equip|connect|attach|assemble|set)$/.test(raw.head) || /nitrogen|argon|balloon/i.test(detail);
  },
  resolve(raw, context) {
    const on = context.refOf(raw.arguments.on) ?? { vessel: context.vessel('the flask', 0), portion: { kind: 'all' as const } };
    context.setFocus(on.vessel);
    const detail = raw.arguments.detail?.kind === 'detail' ? raw.arguments.detail.text : undefined;
    return { on: [{ vessel: on.vessel, portion: { kind: 'all' } }], ...(detail !== undefined && { detail }), ...conditions(raw) };
  },
  print: (slots, w) => slots.detail === undefined ? `Keep ${w.ref(slots.on![0]!)}${w.tail(slots)}` : `Flush ${w.ref(slots.on![0]!)} with ${slots.detail}${w.tail(slots)}`,
  lower: () => [],
};
