import type { Basis } from '../../core/ledger/posting.ts';
import type { Arrow } from './arrows.ts';
import type { PlacedRow } from './row.ts';
import type { Sheet } from './sheet.ts';
import { amountIn } from './states.ts';

const BASIS_WORDS: Readonly<Record<Basis, string>> = {
  planned: 'planned',
  measured: 'measured',
  assumed: 'assumed',
};

/** A row of the sheet as it would be read aloud: the step, what moves, what then is where. */
export function spokenRow(row: PlacedRow, sheet: Sheet): string {
  const nameOf = (vessel: string) => sheet.names.get(vessel)?.name ?? vessel;
  const moved = row.arrows.map((arrow) => spokenArrow(arrow, nameOf));
  const weighed = row.weighings.map(
    ({ vessel, text, basis }) => `${nameOf(vessel)} weighs ${text}, ${BASIS_WORDS[basis]}`,
  );
  const held = row.standings.map(({ state }) => {
    const phases = state.phases.map(({ phase }) => phase).join(' under ');
    return `${nameOf(state.vessel)} then holds ${amountIn(state)}${phases === '' ? '' : `, ${phases}`}`;
  });
  const sentences = [
    `Step ${row.step}, ${row.time}: ${row.sentence}`,
    ...moved,
    ...weighed,
    ...held,
  ];
  return `${sentences.join('. ')}.`;
}

function spokenArrow(arrow: Arrow, nameOf: (vessel: string) => string): string {
  const { from, to, name, amount, whither, basis } = arrow;
  const source = from === undefined ? 'the stock' : nameOf(from);
  const goal = to === undefined ? whither.replace(/^to /, '') || 'what leaves' : nameOf(to);
  return `${name} ${amount}, ${BASIS_WORDS[basis]}, from ${source} to ${goal}`;
}
