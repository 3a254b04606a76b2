import { useEffect, useRef, useState } from 'react';
import type { Version } from '../../wire/experiment.ts';
import { askAgain } from '../api/queries.ts';
import { nameVersion } from '../api/deeds.ts';
import { NameVersion } from '../versions/name-version.tsx';
import { Button } from '../ui/button.tsx';

/** A button for the name of a version; its field opens in the same place. */
export function VersionName({
  experiment,
  version: { number, name },
}: {
  readonly experiment: string;
  readonly version: Version;
}) {
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const closed = useRef(false);
  // The field is gone with the focus in it: back to where it was opened.
  useEffect(() => {
    if (open || !closed.current) return;
    closed.current = false;
    button.current?.focus();
  }, [open]);
  const done = async (given: string | null | undefined) => {
    if (given !== undefined) {
      await nameVersion(experiment, number, given);
      await askAgain('/api/experiments');
    }
    setOpen(false);
    closed.current = true;
  };
  if (open) return <NameVersion number={number} name={name} onDone={done} />;
  return (
    <Button ref={button} rank="plain" onClick={() => setOpen(true)}>
      {name === null ? 'Name' : 'Rename'} version {number}
    </Button>
  );
}
