import { useEffect, useRef } from 'react';
import { addressOf } from './device/view.ts';
import { useRecord } from './record-context.ts';
import { isExtra, linesOfStep } from './record/place.ts';
import type { StepLines } from './record/place.ts';
import { timeOfDay, timesOf } from './record/timers.ts';
import { stands } from './step/field-kinds.ts';
import { Sentence } from './step/step-view.tsx';
import './step-list.css';

/** What was done at a step, in a few words: "2 of 3 entered, 10:42–11:03". */
export function doneText(lines: StepLines): string {
  const filled = lines.fields.filter((field) => lines.byField.get(field.key)?.some(stands));
  const wanted = lines.fields.filter((field) => !isExtra(field));
  const due = Math.max(wanted.length, filled.length);
  const { started, finished } = timesOf(lines);
  const seen = lines.others.filter(stands).length;
  const words = [
    due === 0 || filled.length === 0 ? '' : `${filled.length} of ${due} entered`,
    started === undefined
      ? ''
      : finished === undefined
        ? `since ${timeOfDay(started)}`
        : `${timeOfDay(started)}–${timeOfDay(finished)}`,
    seen === 0 ? '' : seen === 1 ? '1 observation' : `${seen} observations`,
  ];
  return words.filter((word) => word !== '').join(', ');
}

/** Every step, to jump to; the ends of the record before and after them. */
export function StepList({ current }: { readonly current: string | undefined }) {
  const { sheet, placed } = useRecord();
  const list = useRef<HTMLElement>(null);
  useEffect(() => {
    const link = list.current?.querySelector<HTMLElement>('[aria-current]');
    const strip = list.current?.closest<HTMLElement>('.bench-side-list');
    if (!link || !strip) return;
    const { offsetTop, offsetHeight } = link;
    const above = offsetTop < strip.scrollTop;
    const below = offsetTop + offsetHeight > strip.scrollTop + strip.clientHeight;
    if (above || below) strip.scrollTop = offsetTop - strip.clientHeight / 3;
  }, [current]);
  return (
    <nav ref={list} className="bench-list" aria-label="All steps">
      <a className="bench-list-end" href={addressOf({ kind: 'begin' })}>
        Who writes, which balance
      </a>
      <ol>
        {sheet.steps.map((step, i) => {
          const section = step.section !== sheet.steps[i - 1]?.section ? step.section : null;
          const done = doneText(linesOfStep(placed, step.id));
          return (
            <li key={step.id}>
              {section !== null && <span className="bench-list-section">{section}</span>}
              <a
                href={addressOf({ kind: 'step', step: step.id })}
                {...(step.id === current && { 'aria-current': 'step' as const })}
              >
                <span className="bench-list-sentence">
                  <Sentence step={step} />
                </span>
                {done !== '' && <span className="bench-list-done">{done}</span>}
              </a>
            </li>
          );
        })}
      </ol>
      <a className="bench-list-end" href={addressOf({ kind: 'entered' })}>
        What was entered
      </a>
    </nav>
  );
}
