import { useState } from 'react';
import { useMutation } from '@tanstack/react-query';
import type { EvidenceEntered } from '../../core/evidence/schema.ts';
import type { SampleState } from '../../core/evidence/spectrum/infrared.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import type { EvidenceReport } from '../../core/report/evidence/report.ts';
import { techniqueWords } from '../../core/report/evidence/verdict.ts';
import type { Acknowledged, RunOpened } from '../../wire/run.ts';
import { askAgain, useSession } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';
import { sha256 } from '../bench/photo/sha256.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { FileQuestion } from '../instrument/file-question.tsx';
import { useDrop } from '../instrument/use-drop.ts';
import { useFiles } from '../instrument/use-files.ts';
import { Button } from '../ui/button.tsx';
import { newId } from '../ui/id.ts';
import { FormPanel } from './forms/form-panel.tsx';
import { FORMS } from './forms/index.ts';

interface NewMeasurement {
  readonly evidence: EvidenceEntered;
  /** Bytes that are not on the server yet. */
  readonly bytes?: ArrayBuffer;
  /** Hashes of what is there already. */
  readonly attachments?: readonly string[];
}

const LAST_STATE = 'weighboat.sample state';

function lastState(): SampleState {
  return (localStorage.getItem(LAST_STATE) as SampleState | null) ?? 'atr';
}

/** Sends the file first: an entry never names what is not there. */
async function keep(run: RunOpened, by: string, given: NewMeasurement): Promise<void> {
  const hashes = [...(given.attachments ?? [])];
  if (given.bytes !== undefined) {
    const hash = await sha256(new Uint8Array(given.bytes));
    const body = new Blob([given.bytes], { type: 'application/octet-stream' });
    await request(`/api/attachments/${hash}`, { method: 'PUT', body });
    hashes.push(hash);
  }
  const entry: BenchEntry = {
    id: newId(),
    at: new Date().toISOString(),
    by,
    bench: run.bench,
    document: run.document,
    kind: 'evidence',
    evidence: given.evidence,
    ...(hashes.length > 0 && { attachments: hashes }),
  };
  const body = { entries: [entry] };
  await request<Acknowledged>(`/api/runs/${run.id}/entries`, { method: 'POST', body });
  await askAgain(`/api/runs/${run.id}`);
}

/** Files dropped anywhere on the page, and measurements typed by hand. */
export function AddMeasurement({
  run,
  report,
  decimalSign,
}: {
  readonly run: RunOpened;
  readonly report: EvidenceReport;
  readonly decimalSign: DecimalSign;
}) {
  const session = useSession();
  const by = session.data?.person.name.slice(0, 200) ?? '';
  const files = useFiles();
  const over = useDrop((dropped) => void files.take(dropped));
  const [open, setOpen] = useState<string>();
  const keeping = useMutation({ mutationFn: (given: NewMeasurement) => keep(run, by, given) });
  const problem = keeping.error === null ? undefined : saidOf(keeping.error);
  const form = FORMS.find(({ technique }) => technique === open);
  const { current } = files;
  return (
    <section className="evidence-add screen-only" aria-labelledby="evidence-add">
      <h2 id="evidence-add">Add a measurement</h2>
      {over && <p className="instrument-over">Let go to keep it in this record.</p>}
      {files.refused.map((said) => (
        <p key={said} role="alert">
          {said}
        </p>
      ))}
      {current !== undefined && (
        <FileQuestion
          key={current.name}
          name={current.name}
          likely={current.likely}
          lastState={lastState()}
          problem={problem}
          onLeave={files.done}
          onKeep={(evidence) => {
            if (evidence.technique === 'infrared' && evidence.state !== undefined)
              localStorage.setItem(LAST_STATE, evidence.state);
            keeping.mutate({ evidence, bytes: current.bytes }, { onSuccess: files.done });
          }}
        />
      )}
      {form !== undefined && (
        <FormPanel
          key={form.technique}
          form={form}
          world={{ subjects: report.subjects }}
          sign={decimalSign}
          busy={keeping.isPending}
          problem={problem}
          onLeave={() => setOpen(undefined)}
          onKeep={(evidence) =>
            keeping.mutate({ evidence }, { onSuccess: () => setOpen(undefined) })
          }
        />
      )}
      {current === undefined && form === undefined && (
        <>
          <p>
            Drop the file that the instrument wrote anywhere on this page, or{' '}
            <label className="evidence-choose">
              choose it
              <input
                type="file"
                multiple
                onChange={({ target }) => {
                  void files.take([...(target.files ?? [])]);
                  target.value = '';
                }}
              />
            </label>
            . Or type what was read:
          </p>
          <div className="row-of-buttons">
            {FORMS.map(({ technique }) => (
              <Button key={technique} onClick={() => setOpen(technique)}>
                {sentenceCase(techniqueWords(technique))}
              </Button>
            ))}
          </div>
        </>
      )}
    </section>
  );
}

const sentenceCase = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

function saidOf(error: Error): string {
  if (!(error instanceof Refused)) return 'It could not be kept. Try again.';
  const { message, hint } = error.refusal;
  return hint === undefined ? message : `${message} ${hint}`;
}
