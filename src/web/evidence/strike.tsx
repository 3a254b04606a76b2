import { useId, useState } from 'react';
import { useMutation } from '@tanstack/react-query';
import type { RunOpened } from '../../wire/run.ts';
import { Button } from '../ui/button.tsx';
import { refusedText, strike } from './keep.ts';

/** A measurement that was a mistake: struck with a reason, and still legible in the record. */
export function Strike({
  run,
  by,
  entry,
}: {
  readonly run: RunOpened;
  readonly by: string;
  readonly entry: string;
}) {
  const [asked, setAsked] = useState(false);
  const [reason, setReason] = useState('');
  const id = useId();
  const striking = useMutation({ mutationFn: () => strike(run, by, entry, reason) });
  if (!asked)
    return (
      <Button rank="plain" onClick={() => setAsked(true)}>
        Strike it
      </Button>
    );
  return (
    <form
      className="evidence-strike"
      onSubmit={(event) => {
        event.preventDefault();
        striking.mutate();
      }}
    >
      <label htmlFor={id}>Why does it not count?</label>
      <input
        id={id}
        type="text"
        value={reason}
        maxLength={500}
        onChange={({ target }) => setReason(target.value)}
      />
      <Button type="submit" disabled={striking.isPending}>
        Strike it
      </Button>
      <Button rank="plain" onClick={() => setAsked(false)}>
        Let it stand
      </Button>
      {striking.error !== null && <p role="alert">{refusedText(striking.error)}</p>}
    </form>
  );
}
