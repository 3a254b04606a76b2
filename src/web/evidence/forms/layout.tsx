import { useLayoutEffect, useRef } from 'react';
import type { ReactNode } from 'react';
import { useForm } from './draft.ts';

/** Fields that are read together, side by side where there is room: the two ends of a range. */
export function Line({ children }: { readonly children: ReactNode }) {
  return <div className="evidence-line">{children}</div>;
}

/** Fields that mean something only together, under a heading of their own. */
export function Group({
  label,
  children,
}: {
  readonly label: string;
  readonly children: ReactNode;
}) {
  return (
    <fieldset className="evidence-group">
      <legend>{label}</legend>
      <Line>{children}</Line>
    </fieldset>
  );
}

/** What is seldom needed, shut until asked for, or until one of its fields is not right. */
export function Seldom({
  summary,
  fields = [],
  children,
}: {
  readonly summary: string;
  /** The names of the fields inside that can be wrong; a field of rows by its own name. */
  readonly fields?: readonly string[];
  readonly children: ReactNode;
}) {
  const { problems } = useForm();
  const details = useRef<HTMLDetailsElement>(null);
  const wrong = Object.keys(problems).some((problem) =>
    fields.some((field) => problem === field || problem.startsWith(`${field}.`)),
  );
  // Before the form brings the focus to what is wrong: a field that is not shown takes none.
  useLayoutEffect(() => {
    if (wrong && details.current !== null) details.current.open = true;
  }, [wrong, problems]);
  return (
    <details ref={details} className="evidence-seldom">
      <summary>{summary}</summary>
      {children}
    </details>
  );
}
