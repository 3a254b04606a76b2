import type { Enactment } from '../core/enact/enactment.ts';
import type { Experiment } from '../core/experiment/step.ts';
import { formatQuantity } from '../core/quantity/print.ts';
import type { BenchRun } from '../core/record/run.ts';
import type {
  FlowEnd,
  FlowPassage,
  FlowRow,
  FlowSheet,
  FlowState,
} from '../core/report/flow/flow.ts';
import {
  chargeKey,
  flowWords,
  gathered,
  shortSentence,
  sumText,
} from '../picture/flow-sheet/words.ts';
import type { FlowWords } from '../picture/flow-sheet/words.ts';
import type * as Picture from './paint/flow-picture.ts';
import { clip, keepAmounts } from './paint/text.ts';

/** What the words of a row are made from, besides the row itself. */
interface Context {
  readonly vessels: ReadonlySet<string>;
  readonly run: Enactment;
  readonly words: FlowWords;
}

/** The report's flow sheet in the words that the painters put on the page. */
export function flowPicture(
  sheet: FlowSheet,
  run: Enactment,
  experiment: Experiment,
  record?: BenchRun,
): Picture.FlowPicture {
  const context: Context = {
    vessels: new Set(sheet.columns.map(({ vessel }) => vessel)),
    run,
    words: flowWords(run, experiment, record),
  };
  return {
    columns: sheet.columns.map(({ vessel, name, capacity_mL, tared }) => ({
      id: vessel,
      name,
      note: [capacity_mL === null ? '' : `${capacity_mL} mL`, tared ? 'tared' : '']
        .filter((part) => part !== '')
        .join(', '),
    })),
    rows: sheet.rows.map((row) => lineOf(row, context)),
  };
}

const LONGEST_LABEL = 110;

function lineOf(row: FlowRow, context: Context): Picture.FlowLine {
  const { sentences, weighings } = context.words;
  const passages = gathered(row.passages).flatMap((one) => passageOf(one, row.step, context));
  const sentence = shortSentence(sentences.get(row.step) ?? row.label);
  return {
    step: row.step,
    label: keepAmounts(clip(sentence, LONGEST_LABEL)),
    time: timeText(row.start_min),
    passages: [...passages, ...gasPassages(row, context)],
    states: row.states.map(stateOf),
    remarks: weighings.get(row.step) ?? [],
  };
}

function timeText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 120) return `${whole} min`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
}

function passageOf(
  group: readonly FlowPassage[],
  step: string,
  { vessels, words }: Context,
): Picture.FlowPassage[] {
  const { from, to, label, basis } = group[0]!;
  const source = vesselOf(from, vessels);
  const goal = vesselOf(to, vessels);
  if ((source === undefined && goal === undefined) || source === goal) return [];
  const charge = source === undefined ? words.charges.get(chargeKey(step, label)) : undefined;
  return [
    {
      label: keepAmounts(to.kind === 'waste' && to.name !== '' ? `${label}, ${to.name}` : label),
      amount: charge?.text ?? sumText(group),
      basis: charge === undefined || charge.basis === 'measured' ? basis : 'planned',
      ...(source === undefined ? {} : { from: source }),
      ...(goal === undefined ? { leaves: leavesTo(to) } : { to: goal }),
    },
  ];
}

/** The stream of a waste is in the words at the left; at the right there is room for one. */
function leavesTo(end: FlowEnd): string {
  if (end.kind === 'vessel') return '';
  return end.kind === 'other' ? (end.name.split('/')[0] ?? '') : end.kind;
}
function vesselOf(end: FlowEnd, vessels: ReadonlySet<string>): string | undefined {
  if (end.kind === 'vessel') return end.vessel;
  return end.kind === 'other' && vessels.has(end.name) ? end.name : undefined;
}

/** Below this nobody sees a bubble. */
const LEAST_GAS_L = 0.0005;

/** Gas that comes off and that the row does not show as a passage of its own. */
function gasPassages(row: FlowRow, { run, vessels }: Context): Picture.FlowPassage[] {
  const volumes_L = new Map<string, { vessel: string; name: string; volume_L: number }>();
  for (const { step, vessel, substance, volume_L } of run.gases) {
    if (step !== row.step || !vessels.has(vessel)) continue;
    const key = `${vessel}|${substance}`;
    const before = volumes_L.get(key)?.volume_L ?? 0;
    const name = run.substances.get(substance)?.name ?? substance;
    volumes_L.set(key, { vessel, name, volume_L: before + volume_L });
  }
  return [...volumes_L.values()].flatMap(({ vessel, name, volume_L }) => {
    const shown = row.passages.some((one) => one.to.kind === 'air' && one.label === name);
    if (shown || volume_L < LEAST_GAS_L) return [];
    const amount = formatQuantity(volume_L * 1000, 'volume', 2);
    return [{ from: vessel, leaves: 'air', label: name, amount, basis: 'assumed' as const }];
  });
}

function stateOf(state: FlowState): Picture.FlowState {
  const seen = state.phases.filter((phase) => phase.phase !== 'vapour' && phase.mass_g > 0);
  const bulk = (phase: (typeof seen)[number]) => phase.volume_mL ?? phase.mass_g;
  const total = seen.reduce((sum, phase) => sum + bulk(phase), 0);
  const dry = seen.length > 0 && seen.every((phase) => phase.phase === 'solid');
  const amount = dry
    ? formatQuantity(state.mass_g, 'mass', 3)
    : formatQuantity(state.volume_mL, 'volume', 2);
  const over = state.fill !== null && state.fill > 1;
  return {
    vessel: state.vessel,
    amount: total > 0 ? `${amount}${over ? ' (more than it holds)' : ''}` : '',
    ...(state.fill === null ? {} : { fill: state.fill }),
    layers:
      total > 0 ? seen.map((phase) => ({ phase: phase.phase, share: bulk(phase) / total })) : [],
  };
}
