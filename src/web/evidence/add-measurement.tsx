import { useEffect, useRef, useState } from 'react';
import { useMutation } from '@tanstack/react-query';
import type { FileReading } from '../../core/evidence/spectrum/trace.ts';
import type { Technique } from '../../core/evidence/statement.ts';
import type { EvidenceReport } from '../../core/report/evidence/report.ts';
import { techniqueWords } from '../../core/evidence/technique-words.ts';
import { sentenceStart } from '../../core/quantity/sentence.ts';
import type { RunOpened } from '../../wire/run.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { FileQuestion } from '../instrument/file-question.tsx';
import { useDrop } from '../instrument/use-drop.ts';
import { keepLastState, lastState } from '../instrument/last-state.ts';
import { useFiles } from '../instrument/use-files.ts';
import { Button } from '../ui/button.tsx';
import { FormPanel } from './forms/form-panel.tsx';
import { FORMS } from './forms/index.ts';
import { keep, refusedText } from './keep.ts';
import type { NewMeasurement } from './keep.ts';

/** A form that stands open: empty, or for a file that was kept before. */
export interface OpenForm {
  readonly technique: Technique;
  readonly file?: { readonly hash: string; readonly name: string; readonly reading: FileReading };
}

/** What was just kept comes into view, once the page has drawn it. */
function toMeasurement(id: string): void {
  setTimeout(
    () => document.querySelector<HTMLElement>(`#entry-${CSS.escape(id)} h3`)?.focus(),
    100,
  );
}

interface AddProps {
  readonly run: RunOpened;
  readonly by: string;
  readonly report: EvidenceReport;
  readonly decimalSign: DecimalSign;
  readonly open: OpenForm | undefined;
  readonly setOpen: (open: OpenForm | undefined) => void;
}

/** Files dropped anywhere on the page, and measurements typed by hand. */
export function AddMeasurement({ run, by, report, decimalSign, open, setOpen }: AddProps) {
  const files = useFiles();
  const over = useDrop((dropped) => void files.take(dropped));
  const keeping = useMutation({ mutationFn: (given: NewMeasurement) => keep(run, by, given) });
  const problem = keeping.error === null ? undefined : refusedText(keeping.error);
  const heading = useShown(open);
  const { current } = files;
  return (
    <section className="evidence-add screen-only" aria-labelledby="evidence-add">
      <h2 id="evidence-add" ref={heading} tabIndex={-1}>
        Add a measurement
      </h2>
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
          more={files.more}
          likely={current.likely}
          lastState={lastState()}
          problem={problem}
          onLeave={files.done}
          onKeep={(evidence) => {
            if (evidence.technique === 'infrared' && evidence.state !== undefined)
              keepLastState(evidence.state);
            keeping.mutate(
              { evidence, file: new Blob([current.bytes]) },
              {
                onSuccess: (id) => {
                  files.done();
                  toMeasurement(id);
                },
              },
            );
          }}
        />
      )}
      {open !== undefined && (
        <Filling {...{ open, report, decimalSign, problem, setOpen, keeping }} />
      )}
      {current === undefined && open === undefined && (
        <Ways onFiles={(chosen) => void files.take(chosen)} onForm={setOpen} />
      )}
    </section>
  );
}

/** A form that was asked for further down on the page comes into view. */
function useShown(open: OpenForm | undefined) {
  const heading = useRef<HTMLHeadingElement>(null);
  const file = open?.file?.hash;
  useEffect(() => {
    if (file !== undefined) heading.current?.focus();
  }, [file]);
  return heading;
}

function Filling({
  open,
  report,
  decimalSign,
  problem,
  setOpen,
  keeping,
}: Pick<AddProps, 'report' | 'decimalSign' | 'setOpen'> & {
  readonly open: OpenForm;
  readonly problem: string | undefined;
  readonly keeping: {
    readonly isPending: boolean;
    readonly mutate: (
      given: NewMeasurement,
      then: { readonly onSuccess: (id: string) => void },
    ) => void;
  };
}) {
  const form = FORMS.find(({ technique }) => technique === open.technique);
  if (form === undefined) return null;
  const { file } = open;
  return (
    <FormPanel
      key={`${form.technique} ${file?.hash ?? ''}`}
      form={form}
      world={{
        subjects: report.subjects,
        ...(file !== undefined && { file: file.reading, fileName: file.name }),
      }}
      sign={decimalSign}
      busy={keeping.isPending}
      problem={problem}
      onLeave={() => setOpen(undefined)}
      onKeep={(evidence, attach) =>
        keeping.mutate(
          {
            evidence,
            ...(file !== undefined && { attachments: [file.hash] }),
            ...(attach !== undefined && { file: attach }),
          },
          {
            onSuccess: (id) => {
              setOpen(undefined);
              toMeasurement(id);
            },
          },
        )
      }
    />
  );
}

const KINDS: readonly (readonly [string, readonly Technique[]])[] = [
  ['Constants', ['meltingRange', 'boilingRange', 'refractiveIndex', 'density', 'rotation']],
  ['Separation', ['thinLayer', 'chromatogram']],
  ['Wet chemistry', ['chemicalTest', 'titration']],
  ['Spectra', ['nmr', 'mass']],
];

function Ways({
  onFiles,
  onForm,
}: {
  readonly onFiles: (files: readonly File[]) => void;
  readonly onForm: (open: OpenForm) => void;
}) {
  const input = useState(0);
  return (
    <>
      <p>
        Drop the file that the instrument wrote anywhere on this page, or{' '}
        <label className="evidence-choose">
          choose it
          <input
            key={input[0]}
            type="file"
            multiple
            onChange={({ target }) => {
              onFiles([...(target.files ?? [])]);
              // So that the same file can be chosen again.
              input[1](input[0] + 1);
            }}
          />
        </label>
        . Or type what was read:
      </p>
      <dl className="evidence-kinds">
        {KINDS.map(([kind, techniques]) => (
          <div key={kind}>
            <dt>{kind}</dt>
            <dd className="row-of-buttons">
              {FORMS.filter(({ technique }) => techniques.includes(technique)).map(
                ({ technique }) => (
                  <Button key={technique} onClick={() => onForm({ technique })}>
                    {sentenceStart(techniqueWords(technique))}
                  </Button>
                ),
              )}
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
}
