import type { Basis } from '../../core/ledger/posting.ts';
import type { FlowLine, FlowPassage, FlowPicture, FlowRemark } from './flow-picture.ts';
import { planOf } from './flow-plan.ts';
import type { Plan, Sign } from './flow-plan.ts';
import { paintStacked } from './flow-stacked.ts';
import { GAUGE_KEY, gauge } from './gauge.ts';
import type { Ink, Paper } from './ink.ts';
import { blankLine } from './line.ts';
import type { Line } from './line.ts';
import { legend, marked, setBy } from './number.ts';
import { clip, padBoth, paragraph, widthOf, wrap } from './text.ts';

/**
 * The flow sheet in characters: time runs down, each vessel is a lane that lasts while it holds
 * something, matter runs across in arrows from the words at the left to what leaves at the right.
 * A page too narrow for the lanes gets a list.
 */
export function paintFlow(picture: FlowPicture, paper: Paper): string {
  const plan = planOf(picture, paper.width);
  const sheet =
    plan === undefined ? paintStacked(picture, paper) : paintLanes(picture, plan, paper);
  const bases = picture.rows.flatMap((row) =>
    [...row.passages, ...(row.remarks ?? [])].map(({ basis }) => basis),
  );
  const keys = [legend(bases, paper), paragraph(GAUGE_KEY, paper.width)];
  return [sheet, '', ...keys.filter((key) => key !== '')].join('\n');
}

function paintLanes(picture: FlowPicture, plan: Plan, paper: Paper): string {
  const lines = [...headLines(picture, plan, paper), paper.ink.faint('─'.repeat(plan.width))];
  const alive = new Set<string>();
  picture.rows.forEach((row, r) => {
    if (r > 0) lines.push(spacer(alive, plan, paper));
    lines.push(...rowLines(row, r, alive, plan, paper));
  });
  return lines.join('\n');
}

function headLines(picture: FlowPicture, plan: Plan, { ink }: Paper): string[] {
  const named = picture.columns.flatMap(({ id }) => (plan.named === 'head' ? [id] : []));
  const heads = named.map((id) => plan.signs.get(id)!);
  const height = Math.max(1, ...heads.map((sign) => sign.length));
  const lines = Array.from({ length: height }, () => blankLine(plan.width));
  named.forEach((id, i) => putSign(lines, id, heads[i]!, plan, ink));
  const at = Math.max(0, height - 2);
  lines[at]!.put(0, 'Step, and what comes from the stock', ink.bold);
  if (plan.named === 'birth')
    lines[at]!.put(
      plan.words,
      clip('Vessels, named where they begin', plan.leaves - plan.words - 1),
      ink.bold,
    );
  lines[at]!.put(plan.leaves, 'Leaves', ink.bold);
  return lines.map((line) => line.paint());
}

/** A vessel's name and size in its lane, ending at the last of the lines. */
function putSign(lines: readonly Line[], id: string, sign: Sign, plan: Plan, ink: Ink): void {
  const room = plan.lane - 1;
  const x = plan.centre.get(id)! - (room >> 1);
  sign.forEach(({ text, kind }, k) => {
    const line = lines[lines.length - sign.length + k];
    line?.put(x, padBoth(text, room), kind === 'name' ? ink.bold : ink.faint);
  });
}

function drawAlive(line: Line, alive: ReadonlySet<string>, plan: Plan, { ink }: Paper): void {
  for (const id of alive) line.put(plan.centre.get(id)!, '│', ink.faint);
}

function spacer(alive: ReadonlySet<string>, plan: Plan, paper: Paper): string {
  const line = blankLine(plan.width);
  drawAlive(line, alive, plan, paper);
  return line.paint();
}

function rowLines(
  row: FlowLine,
  r: number,
  alive: Set<string>,
  plan: Plan,
  paper: Paper,
): string[] {
  const lines: Line[] = [];
  const start = () => {
    const line = blankLine(plan.width);
    drawAlive(line, alive, plan, paper);
    lines.push(line);
    return line;
  };
  const label = wrap(row.label, plan.words - 5 - widthOf(row.time) - 4);
  const born = plan.named === 'birth' ? (plan.births.get(r) ?? []) : [];
  const height = Math.max(label.length, ...born.map((id) => plan.signs.get(id)!.length));
  for (let i = 0; i < height; i++) start().put(5, label[i] ?? '');
  lines[0]!.put(0, row.step, paper.ink.bold);
  lines[0]!.put(plan.words - 2 - widthOf(row.time), row.time, paper.ink.faint);
  for (const id of born) putSign(lines, id, plan.signs.get(id)!, plan, paper.ink);
  row.passages.forEach((passage, i) => {
    const parts = wrap(
      [passage.label, marked(passage.amount, passage.basis)].filter(Boolean).join(' '),
      plan.words + (plan.lane >> 1) - 10,
    );
    parts.forEach((part, k) => {
      const line = start();
      line.put(6, part, setBy(passage.basis, paper.ink));
      if (k === parts.length - 1) drawArrow(line, 6 + widthOf(part) + 1, passage, plan, paper);
    });
    if (passage.to !== undefined) alive.add(passage.to);
    for (const id of alive) if (isOver(id, row, r, i, plan)) alive.delete(id);
  });
  if (row.passages.length > 0 && row.states.some((state) => state.layers.length > 0))
    drawGauges(start(), row, plan, paper);
  for (const remark of row.remarks ?? []) drawRemark(start(), remark, plan, paper);
  for (const [id, [, last]] of plan.life) if (last === r && r < plan.lastRow) alive.delete(id);
  return lines.map((line) => line.paint());
}

/** A vessel that this row empties for good ends with the arrow that empties it. */
function isOver(id: string, row: FlowLine, r: number, i: number, plan: Plan): boolean {
  if (plan.life.get(id)?.[1] !== r) return false;
  const later = row.passages.slice(i + 1).some(({ from, to }) => from === id || to === id);
  const holds = row.states.some(
    ({ vessel, layers }) => vessel === id && layers.some((l) => l.share > 0),
  );
  return !later && !holds && row.passages.some(({ from }) => from === id);
}

const STROKES: Record<Basis, readonly [line: string, right: string, left: string]> = {
  planned: ['─', '►', '◄'],
  measured: ['━', '►', '◄'],
  assumed: ['╌', '▻', '◅'],
};

function drawArrow(
  line: Line,
  wordsEnd: number,
  passage: FlowPassage,
  plan: Plan,
  { ink }: Paper,
): void {
  const [stroke, right, left] = STROKES[passage.basis];
  const from =
    passage.from === undefined ? Math.max(wordsEnd, 6) - 1 : plan.centre.get(passage.from);
  const to = passage.to === undefined ? plan.leaves : plan.centre.get(passage.to);
  if (from === undefined || to === undefined || from === to) return;
  const [low, high] = from < to ? [from + 1, to - 1] : [to + 1, from - 1];
  for (let x = low; x <= high; x++) line.put(x, line.at(x) === '│' ? '┼' : stroke, ink.faint);
  if (from < to) line.put(high, right);
  else line.put(low, left);
  if (passage.from !== undefined) line.put(from, from < to ? '├' : '┤');
  if (passage.to !== undefined) line.put(to, '│');
  else line.put(plan.leaves + 1, passage.leaves ?? '', ink.italic);
}

/** What the balance says stands in the vessel's own lane, or as near as it fits. */
function drawRemark(line: Line, remark: FlowRemark, plan: Plan, { ink }: Paper): void {
  const text = marked(remark.text, remark.basis);
  const centre = plan.centre.get(remark.vessel) ?? plan.words;
  const from = Math.min(plan.width - widthOf(text), centre - (widthOf(text) >> 1));
  line.put(from - 1, ` ${text} `, setBy(remark.basis, ink));
}

function drawGauges(line: Line, row: FlowLine, plan: Plan, paper: Paper): void {
  const room = plan.lane - 2;
  for (const state of row.states) {
    const centre = plan.centre.get(state.vessel);
    if (centre === undefined || state.layers.length === 0) continue;
    line.put(centre - (room >> 1), gauge(state.fill, state.layers, room));
  }
  const told = row.states.filter((state) => state.layers.length > 0 && state.amount !== '');
  const text = told
    .map((state) => (told.length > 1 ? `${state.vessel} ${state.amount}` : state.amount))
    .join(' · ');
  const short =
    widthOf(text) <= plan.words - 8 ? text : told.map((state) => state.amount).join(' · ');
  line.put(Math.max(6, plan.words - 2 - widthOf(short)), short, paper.ink.faint);
}
