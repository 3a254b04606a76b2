import { useMemo, useRef, useState } from 'react';
import type { InfraredSpectrum, SampleState } from '../../core/evidence/spectrum/infrared.ts';
import { infraredIn } from '../../core/evidence/spectrum/library/reference.ts';
import { readInstrumentFile } from '../../core/evidence/spectrum/read/read-file.ts';
import { Refused } from '../api/request.ts';
import type { AskedFile } from '../instrument/use-files.ts';
import { Button } from '../ui/button.tsx';
import { newId } from '../ui/id.ts';
import { SpectrumFields } from './spectrum-form.tsx';
import type { Said } from './spectrum-form.tsx';
import { sendFile } from './use-library.ts';
import type { LibraryDeeds } from './use-library.ts';

/** A file that is compared with the library. */
export interface Asked {
  readonly name: string;
  readonly file: string;
  readonly state: SampleState | null;
  readonly spectrum: InfraredSpectrum;
}

/** A longer title is a description; the name of the file is the better offer then. */
const LONGEST_TITLE = 60;

const withoutEnding = (name: string) => name.replace(/\.\w{1,5}$/, '');

interface IncomingProps {
  readonly file: AskedFile;
  /** A bench compares and keeps nothing. */
  readonly mayKeep: boolean;
  readonly lastState: SampleState | null;
  readonly add: LibraryDeeds['add'];
  readonly onKept: (state: SampleState | null) => void;
  readonly onCompare: (asked: Asked) => void;
  readonly onLeave: () => void;
}

/** One file: asked what it is, and then kept, compared, or left. */
export function Incoming(props: IncomingProps) {
  const { file, mayKeep, onLeave } = props;
  const { read, said, setSaid, busy, problem, keep, compare } = useIncoming(props);
  return (
    <form
      className="instrument-question"
      aria-label={`About ${file.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void (mayKeep ? keep() : compare());
      }}
    >
      <p className="instrument-name">{file.name}</p>
      {read.ok ? (
        <SpectrumFields said={said} onChange={setSaid} />
      ) : (
        <p role="alert">
          {read.problem.message} {read.problem.hint}
        </p>
      )}
      {problem !== undefined && <p role="alert">{problem}</p>}
      <div className="instrument-ends">
        {read.ok && mayKeep && (
          <Button type="submit" rank="first" disabled={busy}>
            Keep it in the library
          </Button>
        )}
        {read.ok && (
          <Button disabled={busy} onClick={() => void compare()}>
            What is it most like?
          </Button>
        )}
        <Button rank="plain" onClick={onLeave}>
          Leave it out
        </Button>
      </div>
    </form>
  );
}

/** What the file says of itself is offered; what the person says instead counts. */
function useIncoming({ file, lastState, add, onKept, onCompare }: IncomingProps) {
  const read = useMemo(
    () => infraredIn(readInstrumentFile(new Uint8Array(file.bytes), file.name)),
    [file],
  );
  const title = read.ok ? read.spectrum.title.trim() : '';
  const isName = title !== '' && title !== file.name && title.length <= LONGEST_TITLE;
  const [said, setSaid] = useState<Said>({
    name: (isName ? title : withoutEnding(file.name)).slice(0, 200),
    structure: '',
    state: read.ok ? (read.spectrum.state ?? lastState) : lastState,
  });
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string>();
  // A second try after a lost answer sends the same id, so that it makes one spectrum.
  const id = useRef(newId());

  const keep = async () => {
    setBusy(true);
    if (await add(id.current, file.bytes, said)) onKept(said.state);
    setBusy(false);
  };
  const compare = async () => {
    if (!read.ok) return;
    setBusy(true);
    setProblem(undefined);
    try {
      const hash = await sendFile(file.bytes);
      const { state, name } = said;
      const own = state === null ? read.spectrum : { ...read.spectrum, state };
      onCompare({ name, file: hash, state, spectrum: own });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setProblem(error.refusal.message);
    }
    setBusy(false);
  };
  return { read, said, setSaid, busy, problem, keep, compare };
}
