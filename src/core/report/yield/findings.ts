import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment, MaterialUse } from '../../experiment/step.ts';
import { formatQuantity } from '../../quantity/print.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import { measurementOf } from '../../record/measurement.ts';
import type { BenchRun, Reading, RecordDiagnostic, RunCharge, RunNet } from '../../record/run.ts';
import { nameOf } from '../common/name.ts';
import { limitingOf, suppliesOf } from '../theory/supply.ts';
import { chargedSubstances, rootLimiting } from '../theory/theory.ts';
import { linearOf } from './inputs.ts';
import { fractionOf } from './judge.ts';
import type { Judged } from './judge.ts';
import { toUncertain } from './linear.ts';
import type { TheoryModel } from './model.ts';
import type { YieldPolicy } from './policy.ts';
import { percentOf } from './result.ts';
import { massText, percentText } from './sentence.ts';

export interface Findable {
  readonly experiment: Experiment;
  readonly plan: Enactment;
  readonly run: BenchRun;
  readonly model: TheoryModel;
  readonly products: readonly Judged[];
  readonly policy: YieldPolicy;
}

/** What is worth a second look before a yield is handed in; the most important first. */
export function findingsOf(question: Findable): RecordDiagnostic[] {
  const findings = CHECKS.flatMap((check) => check(question));
  const order = { error: 0, warning: 1, note: 2 };
  return findings.sort((a, b) => order[a.severity] - order[b.severity]);
}

const CHECKS: readonly ((question: Findable) => RecordDiagnostic[])[] = [
  overHundred,
  tareAboveGross,
  tareMissing,
  notWeighed,
  notConstant,
  belowBalance,
  limitingDiffers,
  offTarget,
];

function overHundred({ products, model, policy }: Findable): RecordDiagnostic[] {
  return products.flatMap((product) => {
    const fraction = product.fraction ?? crudeFraction(product, model);
    if (fraction === undefined) return [];
    const percent = percentOf(fraction, policy);
    if (percent.percent - percent.U_percent <= 100) return [];
    const what = product.fraction === undefined ? `crude ${product.name}` : product.name;
    return [
      {
        code: 'yield-over-100',
        severity: 'warning' as const,
        message: `The ${what} weighs more than can be there (${percentText(percent)} %).`,
        hint: 'It may be wet or still hold solvent: dry it and weigh again. Look at the tare too, and for a stopper or stirrer bar that was weighed with it.',
      },
    ];
  });
}

/** The last weighing on the way, while the product itself is not weighed yet. */
function crudeFraction(product: Judged, model: TheoryModel): ReturnType<typeof fractionOf> {
  const net = product.weighings.findLast((weighing) => weighing.net !== undefined)?.net;
  return net && fractionOf(linearOf(net.net_g, net.terms), product.model, model);
}

function tareAboveGross({ run }: Findable): RecordDiagnostic[] {
  return run.nets
    .filter((net) => net.net_g < 0)
    .map((net) => ({
      code: 'tare-above-gross',
      severity: 'error' as const,
      message: `The ${net.vessel} weighs less with its contents (step ${net.step}) than it did empty.`,
      hint: 'Tare and gross may have changed places, or one of them is of another vessel.',
      entry: net.terms[0]!.reading.id,
    }));
}

function tareMissing({ run }: Findable): RecordDiagnostic[] {
  return run.tareMissing.map(({ step, vessel, gross }) => ({
    code: 'tare-missing',
    severity: 'error' as const,
    message: `The ${vessel} was weighed full at step ${step}, but its empty weight is not recorded.`,
    hint: 'Enter the tare. If it was never taken, empty, clean and dry the vessel and weigh it now.',
    ...(gross[0] === undefined ? {} : { entry: gross[0].id }),
  }));
}

function notWeighed({ products, run }: Findable): RecordDiagnostic[] {
  // A weighing without its tare has been said, and is the likelier reason.
  if (run.tareMissing.length > 0) return [];
  return products
    .filter(({ role, net }) => role === 'product' && net === undefined)
    .map(({ name, weighings }) => {
      const crude = weighings.some((each) => each.net !== undefined);
      const step = weighings.findLast((each) => each.net === undefined)?.step;
      const where = step === undefined ? '' : ` (step ${step})`;
      return {
        code: 'not-weighed',
        severity: run.entries.length === 0 ? ('note' as const) : ('warning' as const),
        message: crude
          ? `Only the crude ${name} has been weighed${where}.`
          : `The ${name} has not been weighed${where}.`,
        hint: 'Enter tare and gross, or the net, of the vessel that it is in.',
      };
    });
}

/** Weighings that were to agree: those of the last step, and those before it in the same vessel. */
function notConstant(question: Findable): RecordDiagnostic[] {
  return question.products.flatMap(({ final, weighings }) =>
    final.flatMap(({ net, vessel }) => {
      if (net === undefined) return [];
      const before = weighings.filter((each) => each.kind === 'earlier' && each.vessel === vessel);
      const gross = [...before.flatMap((each) => each.net?.gross ?? []), ...net.gross];
      return changeOf(gross.slice(-2), net, question);
    }),
  );
}

function changeOf(
  [before, last]: readonly Reading[],
  net: RunNet,
  { model, policy }: Findable,
): RecordDiagnostic[] {
  if (before === undefined || last === undefined) return [];
  const change_g = last.value - before.value;
  const u = model.inputs.get(last.id)?.u ?? measurementOf(last, '', model.instruments).u;
  const allowed = Math.max(2 * u * Math.SQRT2, policy.constantMass * Math.abs(net.net_g));
  if (Math.abs(change_g) <= allowed) return [];
  const by = massText(Math.abs(change_g), last.lastDigit);
  const down = change_g < 0;
  return [
    {
      code: 'not-constant',
      severity: 'warning',
      message: `The ${net.vessel} is not at constant mass yet: the last weighing is ${by} ${down ? 'less' : 'more'} than the one before.`,
      hint: down
        ? 'It is still losing solvent or water: dry it on, let it cool and weigh again.'
        : 'It may take up water, or it was weighed warm before: let it cool and weigh again.',
      entry: last.id,
    },
  ];
}

function belowBalance({ products, model, policy }: Findable): RecordDiagnostic[] {
  return products.flatMap(({ name, final }) =>
    final.flatMap(({ net }) => {
      if (net === undefined || net.net_g < 0 || !isTooLight(net, model, policy)) return [];
      return [
        {
          code: 'below-balance',
          severity: 'note' as const,
          message: `${massText(net.net_g, net.terms[0]!.reading.lastDigit)} of ${name} is little for this balance; the yield is uncertain for that.`,
          hint: 'Weigh it on a finer balance, in a light vessel.',
          entry: net.terms[0]!.reading.id,
        },
      ];
    }),
  );
}

function isTooLight(net: RunNet, model: TheoryModel, policy: YieldPolicy): boolean {
  const u = standardUncertainty(toUncertain(linearOf(net.net_g, net.terms), model.inputs));
  return net.net_g < policy.leastNetInU * u;
}

/** Said where it begins: a reaction that only passes on what another one lacks is left out. */
function limitingDiffers({ experiment, plan, model }: Findable): RecordDiagnostic[] {
  const planned = suppliesOf(experiment, plan);
  const actual = model.reactions.map((each) => each.supply);
  const known = chargedSubstances(plan);
  const said = new Set<string>();
  return actual.flatMap((supply, i) => {
    const before = limitingOf(planned[i]!.supplies);
    const now = limitingOf(supply.supplies);
    if (before === undefined || now === undefined) return [];
    if (before.substance === now.substance) return [];
    const first = rootLimiting(now, actual, model.known).substance;
    const meant = rootLimiting(before, planned, known).substance;
    if (first === meant || said.has(first)) return [];
    said.add(first);
    return [
      {
        code: 'limiting-differs',
        severity: 'note' as const,
        message: `With what was weighed, ${nameOf(model.enactment, first)} limits ${supply.reaction.id}, not ${nameOf(plan, meant)} as planned.`,
        hint: 'The yield counts what was weighed. Look at both amounts if this is a surprise.',
      },
    ];
  });
}

function offTarget({ experiment, plan, run, policy }: Findable): RecordDiagnostic[] {
  const uses = new Map(
    experiment.steps.flatMap((step) =>
      (step.slots.materials ?? []).map((use) => [use.id, use] as const),
    ),
  );
  const planned = new Map(plan.charges.map((charge) => [charge.use, charge]));
  return run.charges.flatMap((charge) => {
    const target = planned.get(charge.use);
    const wanted = charge.kind === 'mass' ? target?.mass_g : target?.volume_mL;
    if (wanted === undefined || !(wanted > 0) || inRange(charge, uses.get(charge.use))) return [];
    const share = charge.value / wanted - 1;
    if (Math.abs(share) <= policy.offTarget) return [];
    const percent = Math.abs(100 * share);
    const much = percent >= 10 ? percent.toFixed(0) : percent.toFixed(1);
    const taken =
      charge.kind === 'mass'
        ? massText(charge.value, Math.max(...charge.terms.map((term) => term.reading.lastDigit)))
        : formatQuantity(charge.value, charge.kind);
    return [
      {
        code: 'off-target',
        severity:
          Math.abs(Math.log10(charge.value / wanted)) >= FAR
            ? ('warning' as const)
            : ('note' as const),
        message: `${taken} of ${charge.name} was taken at step ${charge.step}: ${much} % ${share > 0 ? 'more' : 'less'} than the ${formatQuantity(wanted, charge.kind)} written.`,
        hint:
          Math.abs(Math.log10(charge.value / wanted)) >= FAR
            ? 'Look at the unit (mg for g?), at the decimal point, and for an entry that was made twice; enter a correction.'
            : 'If the reading is right, it counts as it is; if not, enter a correction.',
        entry: charge.terms[0]!.reading.id,
      },
    ];
  });
}

/** Decades: a factor of 1.9 (an entry made twice) and more is hardly what was done. */
const FAR = Math.log10(1.9);

function inRange(charge: RunCharge, use: MaterialUse | undefined): boolean {
  return (use?.amounts ?? []).some(
    (amount) =>
      amount.kind !== 'unquantified' &&
      amount.kind === charge.kind &&
      amount.high !== undefined &&
      charge.value >= amount.value &&
      charge.value <= amount.high,
  );
}
