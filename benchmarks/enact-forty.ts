import { enact } from '../src/core/enact/enact.ts';
import { DEFAULT_POLICY } from '../src/core/enact/policy.ts';
import { documentHere } from './files.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median, warmTimesOf } from './measure.ts';
import { openedClean } from './opened.ts';

/** A forty-sentence experiment enacted, its program kept from run to run as it is for a class. */
export function enactForty(): Item[] {
  const { experiment, program, table, plan } = openedClean(documentHere('forty.md'), 'forty.md');
  const quick = { ...DEFAULT_POLICY, trace: false };
  const unseen_ms = warmTimesOf(400, () => enact({ ...program }, table));
  const untraced_ms = warmTimesOf(400, () => enact(program, table, quick));
  const { steps } = experiment;
  const verbs = new Set(steps.map((step) => step.verb)).size;
  return [
    {
      what: `Enact ${steps.length} steps, warm, with the trace that the flow sheet needs`,
      times_ms: warmTimesOf(1000, () => enact(program, table)),
      budget_ms: 2,
      baseline: {
        what: 'copying the answer: JSON.parse(JSON.stringify(enactment))',
        times_ms: warmTimesOf(400, () => JSON.parse(JSON.stringify(plan))),
      },
      remarks: [
        `${verbs} kinds of verb, ${plan.postings.length} postings, ${plan.reactions.length} reactions. ` +
          `Without the trace ${timeText(median(untraced_ms))}; a program not met before ${timeText(median(unseen_ms))}.`,
      ],
    },
  ];
}
