import { useEffect, useRef, useState } from 'react';
import { addressOf } from '../device/view.ts';
import { useRecord } from '../record-context.ts';
import { linesOfStep } from '../record/place.ts';
import type { StepLines } from '../record/place.ts';
import type { BenchStep } from '../sheet.ts';
import { inSign } from '../typed/typed-number.ts';
import { Glued } from './glued.tsx';
import { FieldRow } from './field-row.tsx';
import { LineRow } from './line-row.tsx';
import { Observe } from './observe.tsx';
import { Stamps } from './stamps.tsx';
import './step.css';
import './observe.css';

/** One sentence of the procedure, large; the one before and the one after small. */
export function StepView({ step }: { readonly step: BenchStep }) {
  const { sheet, placed, settings } = useRecord();
  const [open, setOpen] = useState<string>();
  const heading = useRef<HTMLHeadingElement>(null);
  const at = sheet.steps.indexOf(step);
  const lines = linesOfStep(placed, step.id);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    window.scrollTo?.(0, 0);
  }, [step.id]);
  return (
    <article className="bench-step" data-typing={open !== undefined}>
      <Beside step={sheet.steps[at - 1]} word="Before" />
      <p className="bench-place">
        {step.section !== null && <>{step.section} · </>}step {at + 1} of {sheet.steps.length}
      </p>
      <h1 ref={heading} tabIndex={-1} className="bench-sentence">
        <Sentence step={step} />
      </h1>
      {step.cautions.map((caution) => (
        <p key={caution} className="bench-caution">
          {inSign(caution, settings.decimalSign)}
        </p>
      ))}
      <Fields step={step} lines={lines} open={open} setOpen={setOpen} />
      <Stamps step={step} lines={lines} open={open} setOpen={setOpen} />
      <section className="bench-seen" aria-label="Observations">
        {lines.others.map((line) => (
          <LineRow
            key={line.entry.id}
            line={line}
            about={line.entry.kind !== 'observation'}
            open={open}
            setOpen={setOpen}
          />
        ))}
        <Observe step={step} />
      </section>
      <Beside step={sheet.steps[at + 1]} word="Then" />
      <Ways before={sheet.steps[at - 1]} after={sheet.steps[at + 1]} />
    </article>
  );
}

export function Sentence({ step }: { readonly step: BenchStep }) {
  const { settings } = useRecord();
  return (
    <>
      <span className="bench-number">{step.id}</span>{' '}
      <Glued>{inSign(step.sentence, settings.decimalSign)}</Glued>
    </>
  );
}

function Fields({
  step,
  lines,
  open,
  setOpen,
}: {
  readonly step: BenchStep;
  readonly lines: StepLines;
  readonly open: string | undefined;
  readonly setOpen: (id: string | undefined) => void;
}) {
  if (lines.fields.length === 0) return null;
  return (
    <ul className="bench-fields">
      {lines.fields.map((field) => (
        <FieldRow
          key={field.key}
          step={step}
          field={field}
          lines={lines.byField.get(field.key) ?? []}
          open={open}
          setOpen={setOpen}
        />
      ))}
    </ul>
  );
}

/** A neighbour in small, for who looks ahead or back. */
function Beside({ step, word }: { readonly step: BenchStep | undefined; readonly word: string }) {
  if (step === undefined) return null;
  return (
    <p className="bench-beside">
      <span className="bench-beside-word">{word}</span> <Sentence step={step} />
    </p>
  );
}

function Ways({
  before,
  after,
}: {
  readonly before: BenchStep | undefined;
  readonly after: BenchStep | undefined;
}) {
  return (
    <nav className="bench-ways" aria-label="Steps">
      {before === undefined ? (
        <a className="bench-way" href={addressOf({ kind: 'begin' })}>
          Back
        </a>
      ) : (
        <a className="bench-way" href={addressOf({ kind: 'step', step: before.id })}>
          Back
        </a>
      )}
      <a className="bench-way bench-way-steps" href={addressOf({ kind: 'steps' })}>
        All steps
      </a>
      {after === undefined ? (
        <a className="bench-way" data-rank="first" href={addressOf({ kind: 'entered' })}>
          To the end
        </a>
      ) : (
        <a
          className="bench-way"
          data-rank="first"
          href={addressOf({ kind: 'step', step: after.id })}
        >
          Next
        </a>
      )}
    </nav>
  );
}
