import { readExperiment } from '../../src/core/experiment/read.ts';
import type { Experiment, Step } from '../../src/core/experiment/step.ts';

/** A sentence as a chemist reads it: the verbs in order, and what must stand in their slots. */
export interface Expectation {
  readonly sentence: string;
  /** Joined by "+"; "note" where the sentence is to be kept as a remark. */
  readonly verbs: string;
  readonly slots: string;
}

const DOCUMENT = `# Trial

## Vessels

- flask: 100 mL round-bottom flask
- funnel: 125 mL separatory funnel
- addition funnel: 50 mL addition funnel
- beaker: 250 mL beaker
- conical flask: 125 mL conical flask
- extracts flask: 100 mL conical flask
- receiver: 50 mL round-bottom flask, tared
- vial: 10 mL vial, tared
- test tube: 20 mL test tube

## Procedure

`;

/** What stands before a sentence where it takes something for granted. */
const BEFORE: Readonly<Record<string, string>> = {
  plain: '1. Charge the flask with water 5 mL.\n',
  filtered:
    '1. Charge the flask with water 5 mL and benzoic acid 1 g.\n2. Filter the flask under vacuum; keep the solid.\n',
};

export function readIn(
  before: string,
  sentence: string,
): { steps: readonly Step[]; experiment: Experiment } {
  const lead = BEFORE[before] ?? before;
  const experiment = readExperiment(`${DOCUMENT}${lead}9. ${sentence}\n`);
  const from = DOCUMENT.length + lead.length;
  return { experiment, steps: experiment.steps.filter((step) => step.span.start >= from) };
}

type Check = (steps: readonly Step[], wanted: string) => string | undefined;

const squeezed = (text: string) => text.replace(/\s+/g, ' ').trim().toLowerCase();

function amountCheck(pick: (step: Step) => unknown): Check {
  return (steps, wanted) => {
    const values = steps.map((step) => (pick(step) as { value?: number } | undefined)?.value);
    return values.some((value) => value !== undefined && Math.abs(value - Number(wanted)) < 1e-9)
      ? undefined
      : values.join(', ');
  };
}

function textCheck(pick: (step: Step) => string | undefined): Check {
  return (steps, wanted) => {
    const values = steps.map(pick);
    return values.includes(wanted) ? undefined : values.join(', ');
  };
}

const CHECKS: Readonly<Record<string, Check>> = {
  m: (steps, wanted) => {
    const uses = steps.flatMap((step) => step.slots.materials ?? []);
    const found = uses.map((use) => [use.name, ...use.amounts.map(({ text }) => text)].join(' '));
    const wants = wanted.split('|').map(squeezed);
    return wants.includes(squeezed(found.join(' + '))) ? undefined : found.join(' + ');
  },
  n: (steps, wanted) => {
    const repeats = steps.flatMap((step) => (step.slots.materials ?? []).map((use) => use.repeat));
    return repeats.includes(Number(wanted)) ? undefined : repeats.join(', ');
  },
  into: textCheck((step) => step.slots.into),
  on: textCheck((step) => step.slots.on?.[0]?.vessel),
  keep: textCheck((step) => step.slots.keep),
  bath: textCheck((step) => step.slots.bath),
  stream: textCheck((step) => step.slots.stream),
  w: (steps, wanted) => {
    const manners = steps.flatMap((step) => step.slots.manner);
    return manners.includes(wanted) ? undefined : manners.join(', ');
  },
  phase: textCheck((step) => {
    const portion = step.slots.on?.[0]?.portion;
    return portion?.kind === 'phase' ? portion.phase : undefined;
  }),
  t: amountCheck((step) => step.slots.time),
  over: amountCheck((step) => step.slots.over),
  T: amountCheck((step) => step.slots.temperature),
};

/** What is not as expected, in words; empty where the sentence is read rightly. */
export function faultsIn({ sentence, verbs, slots }: Expectation): string[] {
  const { steps, experiment } = readIn('plain', sentence);
  const faults: string[] = [];
  const found = steps.map(({ verb }) => verb).join('+');
  const wanted = verbs === 'note' ? '' : verbs;
  if (
    !wanted
      .split('|')
      .map((way) => (way === 'note' ? '' : way))
      .includes(found)
  )
    faults.push(`read as ${found || 'a note'}`);
  for (const pair of slots.split('; ').filter((part) => part !== '')) {
    const at = pair.indexOf('=');
    const fault = CHECKS[pair.slice(0, at)]!(steps, pair.slice(at + 1));
    if (fault !== undefined) faults.push(`${pair}, but ${fault || 'nothing'}`);
  }
  const TROUBLE = new Set([
    'words-not-understood',
    'amount-unreadable',
    'material-unknown',
    'material-ambiguous',
  ]);
  const unexplained = experiment.diagnostics.filter(({ code }) => TROUBLE.has(code));
  faults.push(...unexplained.map(({ message }) => message));
  return faults;
}
