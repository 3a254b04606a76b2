import { useId, useState } from 'react';
import type { FormEvent } from 'react';
import { Refused } from '../api/request.ts';
import { Button } from '../ui/button.tsx';

/** A name for a version, in the line where the version stands. */
export function NameVersion({
  number,
  name,
  onDone,
}: {
  readonly number: number;
  readonly name: string | null;
  /** undefined: leave it as it was. */
  readonly onDone: (name: string | null | undefined) => Promise<void>;
}) {
  const id = useId();
  const [written, setWritten] = useState(name ?? '');
  const [wrong, setWrong] = useState<string>();
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const given = written.trim();
    try {
      await onDone(given === '' ? null : given);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setWrong(`The name is not kept yet. ${error.refusal.message}`);
    }
  };
  return (
    <form className="experiment-inline-form" onSubmit={(event) => void submit(event)}>
      <label htmlFor={id}>Name of version {number}</label>
      <input
        id={id}
        value={written}
        maxLength={120}
        autoFocus
        autoComplete="off"
        aria-describedby={wrong === undefined ? undefined : `${id}-wrong`}
        onChange={(event) => setWritten(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === 'Escape') void onDone(undefined);
        }}
      />
      <Button type="submit">Keep the name</Button>
      <Button rank="plain" onClick={() => void onDone(undefined)}>
        Leave it
      </Button>
      <span id={`${id}-wrong`} role="status" className="experiment-wrong">
        {wrong}
      </span>
    </form>
  );
}
