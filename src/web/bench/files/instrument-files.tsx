import { useRef } from 'react';
import type { EvidenceEntered } from '../../../core/evidence/schema.ts';
import { FileQuestion } from '../../instrument/file-question.tsx';
import { keepLastState, lastState } from '../../instrument/last-state.ts';
import { useDrop } from '../../instrument/use-drop.ts';
import { useFiles } from '../../instrument/use-files.ts';
import { sha256 } from '../photo/sha256.ts';
import { useRecord } from '../record-context.ts';
import { stepAsking } from '../record/asked-file.ts';
import { evidence } from '../record/new-entry.ts';
import { useEnter } from '../step/use-enter.ts';

/**
 * Files of instruments for this bench record: dropped anywhere on the page, or chosen. They are kept
 * on the device first, like everything that is entered here.
 */
export function InstrumentFiles({ button }: { readonly button: boolean }) {
  const { writer, sheet } = useRecord();
  const files = useFiles();
  const { enter, problem } = useEnter();
  const over = useDrop((dropped) => void files.take(dropped));
  const input = useRef<HTMLInputElement>(null);
  const { current } = files;
  const keep = async (answered: EvidenceEntered): Promise<void> => {
    if (current === undefined) return;
    if (answered.technique === 'infrared' && answered.state !== undefined)
      keepLastState(answered.state);
    const hash = await sha256(new Uint8Array(current.bytes));
    const file = { hash, bytes: current.bytes, mediaType: 'application/octet-stream' };
    const entry = evidence(writer, answered, [hash], stepAsking(sheet, answered));
    if (await enter(entry, [file])) files.done();
  };
  return (
    <div className="bench-files screen-only">
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
          onKeep={(answered) => void keep(answered)}
          onLeave={files.done}
          problem={problem}
        />
      )}
      {button && current === undefined && (
        <label className="bench-target bench-photo">
          File from an instrument
          <input
            ref={input}
            type="file"
            multiple
            onChange={({ target }) => {
              void files.take([...(target.files ?? [])]);
              target.value = '';
            }}
          />
        </label>
      )}
    </div>
  );
}
