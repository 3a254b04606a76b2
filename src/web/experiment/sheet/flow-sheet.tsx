import { useEffect, useRef } from 'react';
import { flowSheet } from '../../../core/report/flow/flow.ts';
import { flowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';
import type { FlowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';
import { rowMemory } from '../../../picture/flow-sheet/row-memory.ts';
import type { RowMemory } from '../../../picture/flow-sheet/row-memory.ts';
import { flowWords } from '../../../picture/flow-sheet/words.ts';
import '../../../picture/flow-sheet/flow-sheet.css';
import { afterFrame } from '../after-frame.ts';
import type { Desk, Scene } from '../desk.ts';
import { shownAfterKey } from '../keystroke.ts';
import { useWords } from '../../words/use-words.ts';
import { drawnWithDecimal } from '../../words/decimal-parts.ts';
import { rowAfter } from './rows-keys.ts';
import { sheetView } from './sheet-view.ts';
import type { SheetView } from './sheet-view.ts';
import './flow-sheet.css';

function pictureOf(
  { enacted: { experiment, plan }, step }: Scene,
  width: number,
  decimal: '.' | ',',
  rows: RowMemory,
): FlowSheetParts {
  // The page has the experiment's title already.
  const sheet = { ...flowSheet(experiment, plan), title: 'Flow sheet' };
  const picture = flowSheetParts(sheet, {
    width,
    rows,
    words: flowWords(plan, experiment),
    ...(step !== undefined && { selected: step }),
  });
  if (decimal === '.') return picture;
  const parts = picture.parts.map((part) => ({
    ...part,
    svg: drawnWithDecimal(part.svg, decimal),
  }));
  return { ...picture, parts };
}

/** The flow sheet follows the text within the keystroke: it listens to the desk itself. */
export function FlowSheet({ desk }: { readonly desk: Desk }) {
  const host = useRef<HTMLDivElement>(null);
  const { decimal } = useWords();
  useEffect(() => {
    const strip = host.current!;
    const view = sheetView('Steps of the flow sheet');
    strip.append(view.svg);
    let width = strip.clientWidth;
    const rows = rowMemory();
    const show = () => view.show(pictureOf(desk.now(), width, decimal, rows), desk.now().step);
    const resized = new ResizeObserver(() => {
      // Not shown at all (on paper, say): it waits as it is.
      if (strip.clientWidth === 0) return;
      width = strip.clientWidth;
      show();
    });
    resized.observe(strip);
    const ends = [
      desk.subscribe((scene, before) => {
        show();
        if (scene.enacted !== before.enacted) shownAfterKey();
        const { step } = scene;
        // After the frame, when the browser knows the places anyway
        if (step !== undefined && scene.cursor !== before.cursor)
          afterFrame(() => bringIntoSight(strip, view.rowOf(step)));
      }),
      rowKeys(view, desk),
      () => resized.disconnect(),
      () => view.svg.remove(),
    ];
    return () => ends.forEach((end) => end());
  }, [desk, decimal]);
  return (
    <section className="experiment-sheet" aria-label="Flow sheet">
      <div ref={host} className="experiment-sheet-strip" />
    </section>
  );
}

/** Within its own strip only: the page stays where the person has it. */
function bringIntoSight(strip: HTMLElement, row: SVGGElement | undefined): void {
  if (row === undefined) return;
  const pane = strip.getBoundingClientRect();
  const { top, bottom } = row.getBoundingClientRect();
  if (top >= pane.top && bottom <= pane.bottom) return;
  strip.scrollBy({ top: (top + bottom) / 2 - (pane.top + pane.bottom) / 2 });
}

/** Enter, a blank or a click on a row puts the cursor on its sentence; the arrows go from row to row. */
function rowKeys(view: SheetView, desk: Desk): () => void {
  const stepOf = (event: Event) =>
    (event.target as Element).closest<SVGGElement>('[data-step]')?.dataset['step'];
  const choose = (step: string) => {
    const found = desk.now().enacted.experiment.steps.find(({ id }) => id === step);
    if (found !== undefined) desk.goTo(found.span.start);
  };
  const clicked = (event: MouseEvent) => {
    const step = stepOf(event) ?? view.stepAt(event.clientY);
    if (step !== undefined) choose(step);
  };
  const pressed = (event: KeyboardEvent) => {
    const step = stepOf(event);
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    const next = rowAfter(event.key, step, view.steps());
    if (next !== undefined) view.rowOf(next)?.focus();
    else if (event.key === 'Enter' || event.key === ' ') choose(step);
    else return;
    event.preventDefault();
  };
  view.svg.addEventListener('click', clicked);
  view.svg.addEventListener('keydown', pressed);
  return () => {
    view.svg.removeEventListener('click', clicked);
    view.svg.removeEventListener('keydown', pressed);
  };
}
