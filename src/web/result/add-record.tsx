import { useId, useState } from 'react';
import type { ChangeEvent } from 'react';
import { useMutation } from '@tanstack/react-query';
import type { Intake } from '../../core/record/intake.ts';
import type { Acknowledged, RunOpened } from '../../wire/run.ts';
import { askAgain } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';
import { Button } from '../ui/button.tsx';
import { Findings } from '../ui/findings.tsx';
import { inPortions, readRecordFile } from './record-file.ts';
import './add-record.css';

interface Read {
  readonly name: string;
  readonly intake: Intake;
}

const UNREADABLE: Intake = {
  entries: [],
  diagnostics: [
    {
      code: 'record-unreadable',
      severity: 'error',
      message: 'This file could not be read.',
      hint: 'Choose a table saved as CSV, or a JSON record.',
    },
  ],
};

/** A file is read and shown first; it goes into the record only when that is wished. */
export function AddRecord({ run }: { readonly run: RunOpened }) {
  const [read, setRead] = useState<Read>();
  const id = useId();
  const adding = useMutation({
    mutationFn: async ({ intake }: Read) => {
      for (const entries of inPortions(intake.entries))
        await request<Acknowledged>(`/api/runs/${run.id}/entries`, {
          method: 'POST',
          body: { entries },
        });
      await askAgain(`/api/runs/${run.id}`);
    },
  });
  const choose = async ({ currentTarget }: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const file = currentTarget.files?.[0];
    if (file === undefined) return;
    adding.reset();
    const intake = await file
      .text()
      .then((text) => readRecordFile(text, file.lastModified))
      .catch(() => UNREADABLE);
    setRead({ name: file.name, intake });
    // So that the same file, mended, can be chosen again.
    currentTarget.value = '';
  };
  return (
    <div className="result-add">
      <div className="field">
        <label htmlFor={id}>Add a record made elsewhere</label>
        <span className="aid" id={`${id}-aid`}>
          A table that begins with kind, step, item, vessel, value, unit; or JSON. It is shown
          before anything is added.
        </span>
        <input
          id={id}
          type="file"
          accept=".csv,.tsv,.txt,.json,text/csv,application/json"
          aria-describedby={`${id}-aid`}
          onChange={(event) => void choose(event)}
        />
      </div>
      {read !== undefined && !adding.isSuccess && (
        <div>
          <p role="status">{readText(read)}</p>
          {read.intake.diagnostics.length > 0 && <Findings findings={read.intake.diagnostics} />}
          {read.intake.entries.length > 0 && (
            <div className="row-of-buttons">
              <Button rank="first" disabled={adding.isPending} onClick={() => adding.mutate(read)}>
                {addText(read.intake.entries.length)}
              </Button>
              <Button rank="plain" onClick={() => setRead(undefined)}>
                Leave them out
              </Button>
            </div>
          )}
        </div>
      )}
      <p role="status">
        {adding.isPending && 'Adding …'}
        {adding.isSuccess && 'Added. What was there already was not doubled.'}
      </p>
      {adding.error !== null && <Refusal error={adding.error} />}
    </div>
  );
}

function readText({ name, intake: { entries, diagnostics } }: Read): string {
  const lines = diagnostics.filter(({ code }) => code === 'record-unreadable').length;
  const read = entries.length === 1 ? '1 entry was' : `${entries.length} entries were`;
  return `${read} read from ${name}${lines === 0 ? '' : `, ${lines} could not be`}.`;
}

const addText = (count: number) => (count === 1 ? 'Add 1 entry' : `Add ${count} entries`);

function Refusal({ error }: { readonly error: Error }) {
  const { message, hint } =
    error instanceof Refused
      ? error.refusal
      : { message: 'The entries could not be added.', hint: 'Try again.' };
  return (
    <div role="alert">
      <p>{message}</p>
      {hint !== undefined && <p className="quiet">{hint}</p>}
    </div>
  );
}
