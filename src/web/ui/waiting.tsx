import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Refused } from '../api/request.ts';
import { Button } from './button.tsx';

/** What a page shows until its data are here, and what it says when they do not come. */
export function Waiting<T>({
  of,
  children,
}: {
  readonly of: UseQueryResult<T>;
  readonly children: (data: T) => ReactNode;
}) {
  if (of.data !== undefined) return children(of.data);
  if (of.error === null)
    return (
      <p role="status" className="quiet">
        Reading …
      </p>
    );
  const { message, hint } =
    of.error instanceof Refused
      ? of.error.refusal
      : { message: 'This could not be read.', hint: undefined };
  return (
    <div role="alert">
      <p>{message}</p>
      {hint !== undefined && <p className="quiet">{hint}</p>}
      <Button onClick={() => void of.refetch()}>Try again</Button>
    </div>
  );
}
