import { useEffect, useRef } from 'react';
import { addressOf } from './device/view.ts';
import { useRecord } from './record-context.ts';
import { RecordTable } from './record-view/record-table.tsx';

/** The end: what was entered, and where it is worked out. */
export function Entered({ online }: { readonly online: boolean }) {
  const { run, waiting, sheet, lines } = useRecord();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    window.scrollTo?.(0, 0);
  }, []);
  const last = sheet.steps.at(-1);
  return (
    <>
      <h1 ref={heading} tabIndex={-1} className="screen-only">
        {lines.length === 0 ? 'Nothing was entered yet.' : 'What was entered'}
      </h1>
      <p className="bench-answer screen-only">
        {waiting.size === 0
          ? 'All of it is kept. '
          : `${waiting.size} of it ${waiting.size === 1 ? 'is' : 'are'} still on this device only. `}
        {online ? <a href={`/runs/${run.id}`}>To the result</a> : 'The result needs the network.'}
      </p>
      <RecordTable />
      <nav className="bench-ways" aria-label="Steps">
        {last !== undefined && (
          <a className="bench-way" href={addressOf({ kind: 'step', step: last.id })}>
            Back
          </a>
        )}
        <a className="bench-way bench-way-steps" href={addressOf({ kind: 'steps' })}>
          All steps
        </a>
        <button type="button" className="bench-way" onClick={() => window.print()}>
          Print it
        </button>
      </nav>
    </>
  );
}
