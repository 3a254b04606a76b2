import { useState } from 'react';
import { useMutation } from '@tanstack/react-query';
import type { InfraredEntered } from '../../core/evidence/spectrum/schema.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import type { RunOpened } from '../../wire/run.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { Button } from '../ui/button.tsx';
import { FormContext, built, readDraft } from './forms/draft.ts';
import type { Draft, DraftReader, Problems } from './forms/draft.ts';
import { NumberField, RowsField, TextField } from './forms/fields.tsx';
import { keep, refusedText } from './keep.ts';

/** The lines that were entered before, to go on from. */
function draftOf({ claims = [], conclusion = '' }: InfraredEntered): Draft {
  const rows = claims.map(({ position_percm, high_percm, shape = '', group }) => ({
    position_percm: String(position_percm),
    high_percm: high_percm === undefined ? '' : String(high_percm),
    shape,
    group,
  }));
  return { claims: rows.length === 0 ? [{}] : rows, conclusion };
}

function entryOf(reader: DraftReader, entered: InfraredEntered) {
  const claims = reader.rows('claims').map((row) => {
    const group = row.text('group');
    if (group === undefined) row.say('group', 'What is the band taken for?');
    return {
      position_percm: row.need('position_percm', 1, 20_000),
      high_percm: row.number('high_percm', 1, 20_000),
      shape: row.text('shape', 60),
      group: group ?? '',
    };
  });
  if (claims.length === 0) reader.say('claims', 'Enter at least one band.');
  return built(reader, { ...entered, claims, conclusion: reader.text('conclusion', 2000) });
}

/** A table of assignments as a student hands it in: position, shape, what it is taken for. */
export function ClaimsForm({
  run,
  by,
  entry,
  entered,
  sign,
  onDone,
}: {
  readonly run: RunOpened;
  readonly by: string;
  readonly entry: BenchEntry;
  readonly entered: InfraredEntered;
  readonly sign: DecimalSign;
  readonly onDone: () => void;
}) {
  const [draft, setDraft] = useState(() => draftOf(entered));
  const [problems, setProblems] = useState<Problems>({});
  const keeping = useMutation({
    mutationFn: (evidence: InfraredEntered) =>
      keep(run, by, { evidence, attachments: entry.attachments ?? [] }),
    onSuccess: onDone,
  });
  return (
    <form
      className="evidence-form"
      aria-label="Table of assignments"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        const result = entryOf(readDraft(draft, sign), entered);
        setProblems(result.ok ? {} : result.problems);
        if (result.ok && result.entered.technique === 'infrared') keeping.mutate(result.entered);
      }}
    >
      <FormContext
        value={{
          draft,
          set: (field, value) => setDraft((before) => ({ ...before, [field]: value })),
          sign,
          problems,
        }}
      >
        <RowsField name="claims" label="Bands" each="Band" addText="Another band">
          <NumberField name="position_percm" label="Position" unit="cm⁻¹" />
          <NumberField name="high_percm" label="to, for a range" unit="cm⁻¹" />
          <TextField name="shape" label="Shape" />
          <TextField name="group" label="Taken for" />
        </RowsField>
        <TextField name="conclusion" label="What follows from it" />
      </FormContext>
      {keeping.error !== null && <p role="alert">{refusedText(keeping.error)}</p>}
      <div className="row-of-buttons">
        <Button type="submit" rank="first" disabled={keeping.isPending}>
          Keep it in the record
        </Button>
        <Button rank="plain" onClick={onDone}>
          Leave it out
        </Button>
      </div>
    </form>
  );
}
