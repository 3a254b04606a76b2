import type { Argument, Verb } from './verb.ts';
import { FOR, conditions } from './common.ts';

/** An inert gas moves no matter that is counted: it is kept as a condition of the vessel. */
/** What is put onto a flask: it holds none of the mixture. */
const RIG = /\b(?:trap|condenser|tube|funnel|adapter|balloon|head|column|stopper|receiver)$/i;

function phraseOf(argument: Argument | undefined): string {
  return argument?.kind === 'vessel'
    ? argument.phrase
    : argument?.kind === 'ref'
      ? argument.ref.text
      : '';
}

export const blanket: Verb = {
  kind: 'blanket',
  about: 'Degas, flush or keep under an inert gas.',
  forms: [
    'Flush {vessel} with nitrogen for {time}',
    'Degas {vessel} with argon',
    'Put {vessel} under nitrogen',
  ],
  examples: ['Flush the flask with nitrogen for 5 min', 'Keep the flask under nitrogen'],
  heads: [
    'degas',
    'flush',
    'purge',
    'blanket',
    'sparge',
    'put',
    'place',
    'keep',
    'evacuate',
    'set',
    'fill',
    'connect',
    'fit',
    'assemble',
    'equip',
    'attach',
  ],
  participles: { degassed: 'degas', fitted: 'fit', kept: 'keep', put: 'put', set: 'set' },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    { words: ['with', 'for', 'to', 'and', 'by', 'for use with'], kind: 'detail', slot: 'detail' },
    FOR,
  ],
  fits: (raw) => {
    if (/^(?:degas|flush|purge|blanket|sparge|evacuate)$/.test(raw.head)) return true;
    if (raw.manner.some((m) => m === 'under nitrogen' || m === 'under argon')) return true;
    const detail = raw.arguments.detail?.kind === 'detail' ? raw.arguments.detail.text : '';
    return (
      /^(?:fit|equip|connect|attach|assemble|set|set up|set up for)$/.test(raw.head) ||
      /nitrogen|argon|balloon/i.test(detail)
    );
  },
  resolve(raw, context) {
    const rigged = /^(?:fit|connect|attach|assemble|set|set up)$/.test(raw.head)
      ? phraseOf(raw.arguments.on)
      : '';
    const on = (RIG.test(rigged) ? context.refOf(undefined) : context.refOf(raw.arguments.on)) ?? {
      vessel: context.vessel('the flask', 0),
      portion: { kind: 'all' as const },
    };
    context.setFocus(on.vessel);
    const text = `${rigged} ${raw.arguments.detail?.kind === 'detail' ? raw.arguments.detail.text : ''}`;
    if (/dean.?stark|water separator/i.test(text))
      context.setAside(`trap on ${on.vessel}`, context.implied('Dean–Stark trap', 'trap', false));
    const detail = raw.arguments.detail?.kind === 'detail' ? raw.arguments.detail.text : undefined;
    return {
      on: [{ vessel: on.vessel, portion: { kind: 'all' } }],
      ...(detail !== undefined && { detail }),
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    slots.detail === undefined
      ? `${slots.manner.some((m) => /^under (?:nitrogen|argon)$/.test(m)) ? 'Keep' : 'Purge'} ${w.ref(slots.on![0]!)}${w.tail(slots)}`
      : `${/nitrogen|argon|gas|hydrogen|air\b/i.test(slots.detail) ? 'Flush' : 'Fit'} ${w.ref(slots.on![0]!)} with ${slots.detail}${w.tail(slots)}`,
  lower: () => [],
};

/** "Attach a reflux condenser": what is rigged up, on the vessel in hand. */
export const rig: Verb = {
  ...blanket,
  about: 'Rig up a condenser, a trap, a tube: on the vessel in hand.',
  forms: ['Attach {what is rigged}', 'Set up for {what}'],
  examples: ['Attach a Dean–Stark trap and a condenser'],
  heads: [
    'connect',
    'fit',
    'assemble',
    'attach',
    'reattach',
    'refit',
    'replace',
    'set up',
    'set up for',
  ],
  object: [{ kind: 'detail', slot: 'detail' }],
};
