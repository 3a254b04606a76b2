import { byImportance } from '../../core/diagnostic.ts';
import type { Diagnostic } from '../../core/diagnostic.ts';
import { formatNumber, formatQuantity } from '../../core/quantity/print.ts';
import { sentenceStart } from '../../core/quantity/sentence.ts';
import type {
  BalanceSegment,
  MaterialBalance,
  SegmentKind,
} from '../../core/report/balance/balance.ts';
import { massText, percentText } from '../../core/report/yield/sentence.ts';
import type {
  BudgetEntry,
  OverallYield,
  ProductYield,
  TheoreticalYield,
  YieldEntry,
  YieldReport,
} from '../../core/report/yield/result.ts';
import type { RunResult } from '../../core/report/result/result.ts';
import { grams, millimoles } from '../../core/report/common/words.ts';
import type { Paper } from './ink.ts';
import { bar, marked, setBy } from './number.ts';
import { clip, listed, padEnd, padStart, paragraph, widthOf } from './text.ts';

/** First the answer, then what it rests on, then what to look at, then what was assumed. */
export function paintYield({ report, balance, diagnostics }: RunResult, paper: Paper): string {
  const { ink, width } = paper;
  const parts = [ink.bold(paragraph(report.sentence, width))];
  const [first, ...others] = report.products;
  if (first !== undefined) parts.push(...productLines(first, paper));
  for (const other of others) {
    if (other.net_g === null && other.entries.length === 0) continue;
    parts.push('', paragraph(other.sentence, width), ...productLines(other, paper));
  }
  if (report.overall !== null)
    parts.push('', paragraph(overallText(report.overall, report.k), width));
  if (balance !== undefined) parts.push(...balanceLines(balance, first, paper));
  if (first !== undefined) parts.push(...budgetLines(first.budget, paper));
  parts.push(...findingLines([...report.findings, ...diagnostics], paper));
  parts.push(...assumedLines(report, paper));
  return parts.join('\n');
}

function productLines(product: ProductYield, paper: Paper): string[] {
  const lines: string[] = [];
  const { theory, entries } = product;
  if (theory !== null) {
    lines.push(paragraph(theoryText(product, theory), paper.width));
  }
  if (entries.length > 1) lines.push(...entries.map((entry) => entryText(entry, paper)));
  return lines;
}

/** What the percentage is counted on; of what is only got back, what was charged of it. */
function theoryText(
  { substance, name, recovered }: ProductYield,
  theory: TheoreticalYield,
): string {
  const amount = `${formatQuantity(theory.mass_g, 'mass', 4)} (${millimoles(theory.amount_mmol)})`;
  if (theory.basis.substance === substance)
    return recovered
      ? `Charged: ${amount} of ${name}; the recovery is counted on it.`
      : `Theory: ${amount}, as much as the procedure forms; no declared reaction makes it.`;
  const why = theory.basisDeclared ? 'as the document says' : 'which limits';
  return `Theory: ${amount}, counted on ${theory.basis.name} (${millimoles(theory.basis_mmol)}), ${why}.`;
}

const ENTRY_WORDS: Record<YieldEntry['kind'], string> = {
  isolated: 'isolated',
  crop: 'further crop',
  crude: 'crude',
  intermediate: 'used on',
  earlier: 'earlier weighing',
};

function entryText(entry: YieldEntry, { ink }: Paper): string {
  const mass = setBy('measured', ink)(marked(massText(entry.net_g, entry.lastDigit_g), 'measured'));
  const percent = entry.yield === undefined ? '' : `  ${percentText(entry.yield)} %`;
  return `  step ${padEnd(entry.step, 4)} ${padEnd(ENTRY_WORDS[entry.kind], 16)} ${mass}${percent}`;
}

function overallText(overall: OverallYield, k: number): string {
  const stages = overall.stages.map((stage) => stage.name).join(' → ');
  return [
    `Over all steps (${stages}): ${percentText(overall)} % (k = ${k}).`,
    ...overall.said,
  ].join(' ');
}

const SEGMENT_WORDS: Record<SegmentKind, (where: string) => string> = {
  isolated: (where) => `in what was weighed, ${where}`,
  'used on': (where) => `used on in ${where}`,
  left: (where) => `left in ${where}`,
  lost: (where) => `missing at step ${where}`,
  waste: (where) => `in waste, ${where}`,
  air: () => 'in the air',
  other: (where) => where,
  'not formed': () => 'not formed',
};

/** Better no bar than one that contradicts the balance. */
const LOST_SIGHT =
  'Where the rest went is not shown: by the sentences of the document the product is elsewhere than in the vessel that was weighed. weighboat flow shows where.';

const BAR_WIDTH = 24;

/** The theoretical mass, piece by piece. */
function balanceLines(
  balance: MaterialBalance,
  product: ProductYield | undefined,
  paper: Paper,
): string[] {
  const shown = balance.segments.filter((segment) => Math.abs(segment.percent) >= 0.05);
  if (shown.length === 0) return [];
  const net_g = product?.net_g ?? null;
  const isolated = shown.filter((segment) => segment.kind === 'isolated');
  if (net_g !== null && isolated.length === 0) return ['', paragraph(LOST_SIGHT, paper.width)];
  const isNet = ({ kind, mass_g }: BalanceSegment) =>
    kind === 'isolated' && net_g !== null && Math.abs(mass_g - net_g) < 0.001 * net_g;
  const words = (segment: BalanceSegment) =>
    isNet(segment) ? 'weighed' : SEGMENT_WORDS[segment.kind](segment.where);
  const room = Math.max(12, paper.width - BAR_WIDTH - 26);
  const wide = Math.min(room, Math.max(...shown.map((segment) => widthOf(words(segment)))));
  const lines = shown.map((segment) => {
    const basis = isNet(segment) ? segment.basis : 'assumed';
    const mass = padStart(marked(grams(segment.mass_g), basis), 9);
    const percent = padStart(`${segment.percent.toFixed(1)} %`, 8);
    const drawn = padEnd(bar(segment.percent / 100, BAR_WIDTH), BAR_WIDTH);
    return `  ${padEnd(clip(words(segment), wide), wide)} ${setBy(basis, paper.ink)(mass)} ${percent}  ${drawn}`.trimEnd();
  });
  for (const said of besideLines(balance, net_g ?? 0))
    lines.push(paragraph(said, paper.width, '  '));
  return ['', paper.ink.bold(`Where ${grams(balance.theory_g)} of ${balance.name} went`), ...lines];
}

/** Less than this share of what was weighed is not worth a line. */
const LEAST_BESIDE = 0.005;

/** What was weighed with the product. */
function besideLines({ unexplained_g, beside, name }: MaterialBalance, net_g: number): string[] {
  const worth = beside.filter(({ mass_g }) => mass_g > LEAST_BESIDE * net_g);
  const named = worth.map((each) => `${grams(each.mass_g)} of ${each.name}`);
  const lines = named.length === 0 ? [] : [`weighed with it, by the document: ${listed(named)}`];
  if (unexplained_g > LEAST_BESIDE * net_g)
    lines.push(`and ${grams(unexplained_g)} on the balance that cannot be ${name}`);
  return lines;
}

const LINES_OF_BUDGET = 5;

/** Which reading makes the uncertainty. */
function budgetLines(budget: readonly BudgetEntry[], paper: Paper): string[] {
  const shown = budget.filter((entry) => entry.share >= 0.005).slice(0, LINES_OF_BUDGET);
  if (shown.length === 0) return [];
  const room = Math.max(16, paper.width - BAR_WIDTH - 14);
  const wide = Math.min(room, Math.max(...shown.map((entry) => widthOf(entry.what))));
  const lines = shown.map((entry) => {
    const percent = padStart(
      `${formatNumber(100 * entry.share, entry.share >= 0.995 ? 3 : 2)} %`,
      6,
    );
    return `  ${padEnd(clip(entry.what, wide), wide)} ${percent}  ${bar(entry.share, BAR_WIDTH)}`;
  });
  return ['', paper.ink.bold('What makes the uncertainty (share of the variance)'), ...lines];
}

const WORDS: Record<Diagnostic['severity'], string> = {
  error: 'error',
  warning: 'look',
  note: 'note',
};

function findingLines(findings: readonly Diagnostic[], paper: Paper): string[] {
  if (findings.length === 0) return [];
  const lines = findings.toSorted(byImportance).flatMap((one) => {
    const word = WORDS[one.severity];
    const hint =
      one.hint === undefined
        ? []
        : [paragraph(sentenceStart(one.hint), paper.width, '         → ', '           ')];
    return [paragraph(sentenceStart(one.message), paper.width, `  ${padEnd(word, 6)} `), ...hint];
  });
  return ['', paper.ink.bold('To look at'), ...lines];
}

function assumedLines(report: YieldReport, paper: Paper): string[] {
  if (report.assumed.length === 0) return [];
  const lines = report.assumed.map((text) =>
    paper.ink.italic(paragraph(text, paper.width, '  ~ ')),
  );
  return ['', paper.ink.bold('Assumed'), ...lines];
}
