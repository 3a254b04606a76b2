import { useId } from 'react';
import type { SampleState } from '../../core/evidence/spectrum/infrared.ts';
import { STATE_WORDS } from '../instrument/file-question.tsx';

/** What is said of a reference. */
export interface Said {
  readonly name: string;
  /** A SMILES or a name; empty where nobody says. */
  readonly structure: string;
  readonly state: SampleState | null;
}

const STATES = Object.entries(STATE_WORDS) as readonly (readonly [SampleState, string])[];

/** The fields of a reference: what it is called, its structure, how it was measured. */
export function SpectrumFields({
  said,
  onChange,
}: {
  readonly said: Said;
  readonly onChange: (said: Said) => void;
}) {
  const id = useId();
  return (
    <div className="library-fields">
      <div className="field">
        <label htmlFor={`${id}-name`}>Name</label>
        <input
          id={`${id}-name`}
          type="text"
          required
          maxLength={200}
          autoComplete="off"
          value={said.name}
          onChange={({ target }) => onChange({ ...said, name: target.value })}
        />
      </div>
      <div className="field">
        <label htmlFor={`${id}-structure`}>Structure, if you like</label>
        <input
          id={`${id}-structure`}
          type="text"
          maxLength={500}
          autoComplete="off"
          spellCheck={false}
          aria-describedby={`${id}-aid`}
          value={said.structure}
          onChange={({ target }) => onChange({ ...said, structure: target.value })}
        />
        <span id={`${id}-aid`} className="aid">
          A SMILES, or a name that the table of substances knows.
        </span>
      </div>
      <div className="field">
        <label htmlFor={`${id}-state`}>How was it measured?</label>
        <select
          id={`${id}-state`}
          value={said.state ?? ''}
          onChange={({ target }) =>
            onChange({ ...said, state: target.value === '' ? null : (target.value as SampleState) })
          }
        >
          <option value="">not known</option>
          {STATES.map(([state, words]) => (
            <option key={state} value={state}>
              {words}
            </option>
          ))}
        </select>
      </div>
    </div>
  );
}
