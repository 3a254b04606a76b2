import { useEffect, useRef } from 'react';
import { addressOf } from './device/view.ts';
import { missingIn } from './record/missing.ts';
import { useRecord } from './record-context.ts';
import { RecordTable } from './record-view/record-table.tsx';

/** The end: what was entered, and where it is worked out. */
export function Entered({ online }: { readonly online: boolean }) {
  const { run, waiting, sheet, lines, placed } = useRecord();
  const missing = missingIn(sheet, placed).length;
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
        {lines.length > 0 && missingText(missing)}
        {online ? (
          <>
            <a href={`/runs/${run.id}`}>To the result</a>,{' '}
            <a href={`/runs/${run.id}/evidence`}>to the evidence</a>
          </>
        ) : (
          'The result needs the network.'
        )}
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

function missingText(missing: number): string {
  if (missing === 0) return 'Nothing is left out. ';
  return missing === 1
    ? 'One thing was not entered; it stands at the end. '
    : `${missing} things were not entered; they stand at the end. `;
}
