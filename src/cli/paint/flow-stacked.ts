import type { FlowLine, FlowPassage, FlowPicture } from './flow-picture.ts';
import { gauge } from './gauge.ts';
import type { Paper } from './ink.ts';
import { marked, setBy } from './number.ts';
import { padEnd, paragraph, widthOf, wrap } from './text.ts';

const GAUGE_WIDTH = 12;

/** The flow sheet as a list, for a page too narrow for lanes. */
export function paintStacked(picture: FlowPicture, paper: Paper): string {
  const names = new Map(picture.columns.map(({ id, name }) => [id, name]));
  return picture.rows.map((row) => paintRow(row, names, paper)).join('\n\n');
}

function paintRow(row: FlowLine, names: ReadonlyMap<string, string>, paper: Paper): string {
  const head = wrap(row.label, paper.width - 5 - widthOf(row.time) - 2).map((part, i) =>
    i === 0
      ? `${paper.ink.bold(padEnd(row.step, 4))} ${padEnd(part, paper.width - 5 - widthOf(row.time))}${paper.ink.faint(row.time)}`
      : `     ${part}`,
  );
  const passages = row.passages.map((passage) =>
    paragraph(passageText(passage, names), paper.width, '       ', '         ')
      .split('\n')
      .map(setBy(passage.basis, paper.ink))
      .join('\n'),
  );
  const states =
    row.passages.length === 0
      ? []
      : row.states
          .filter((state) => state.layers.length > 0)
          .map((state) => {
            const name = names.get(state.vessel) ?? state.vessel;
            return `       ${gauge(state.fill, state.layers, GAUGE_WIDTH)} ${name} ${state.amount}`.trimEnd();
          });
  const remarks = (row.remarks ?? []).map(({ vessel, text, basis }) => {
    const name = names.get(vessel) ?? vessel;
    return setBy(basis, paper.ink)(`       ${name}: ${marked(text, basis)} on the balance`);
  });
  return [...head, ...passages, ...states, ...remarks].join('\n');
}

function passageText(passage: FlowPassage, names: ReadonlyMap<string, string>): string {
  const what = [passage.label, marked(passage.amount, passage.basis)].filter(Boolean).join(' ');
  const name = (id: string) => names.get(id) ?? id;
  const from = passage.from === undefined ? '' : `${name(passage.from)} `;
  const to = passage.to === undefined ? (passage.leaves ?? 'leaves') : name(passage.to);
  const arrow = passage.basis === 'assumed' ? '╌▻' : '─►';
  return passage.from === undefined ? `${what} ${arrow} ${to}` : `${from}${arrow} ${to}: ${what}`;
}
