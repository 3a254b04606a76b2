import { useId, useState } from 'react';
import type { EvidenceEntered } from '../../core/evidence/schema.ts';
import type { SampleState } from '../../core/evidence/spectrum/infrared.ts';
import type { FileTechnique } from './sniff.ts';
import './instrument.css';

export type SampleOf = 'product' | 'startingMaterial' | 'reference' | 'polystyrene' | 'other';

const KINDS: readonly (readonly [FileTechnique, string])[] = [
  ['infrared', 'Infrared spectrum'],
  ['nmr', 'NMR spectrum'],
  ['mass', 'Mass spectrum'],
  ['chromatogram', 'Chromatogram'],
];

const SAMPLES: readonly (readonly [SampleOf, string])[] = [
  ['product', 'the product'],
  ['startingMaterial', 'the starting material'],
  ['reference', 'a known sample of the product'],
  ['polystyrene', 'the polystyrene film'],
  ['other', 'something else'],
];

export const STATE_WORDS: Readonly<Record<SampleState, string>> = {
  atr: 'ATR',
  film: 'liquid film',
  disc: 'KBr disc',
  mull: 'mull in oil',
  solution: 'solution',
  gas: 'gas cell',
};

const STATES = Object.entries(STATE_WORDS) as readonly (readonly [SampleState, string])[];

/** What a person answered about a file; the entry is made of it. */
export function evidenceOfFile(
  file: string,
  technique: FileTechnique,
  of: SampleOf,
  state: SampleState,
): EvidenceEntered {
  const name = file.slice(0, 200);
  if (technique === 'infrared') return { technique, of, state, file: name };
  return {
    technique: 'file',
    kind: technique,
    of: of === 'polystyrene' ? 'other' : of,
    file: name,
  };
}

/** Asked once a file: what it is, what was measured, how it lay in the beam. */
export function FileQuestion({
  name,
  more,
  likely,
  lastState,
  onKeep,
  onLeave,
  problem,
}: {
  readonly name: string;
  /** Files that wait behind it. */
  readonly more: number;
  readonly likely: FileTechnique;
  /** What was answered the last time on this device. */
  readonly lastState: SampleState;
  readonly onKeep: (evidence: EvidenceEntered) => void;
  readonly onLeave: () => void;
  readonly problem?: string | undefined;
}) {
  const [technique, setTechnique] = useState(likely);
  const [of, setOf] = useState<SampleOf>('product');
  const [state, setState] = useState(lastState);
  const infrared = technique === 'infrared';
  const samples = infrared ? SAMPLES : SAMPLES.filter(([value]) => value !== 'polystyrene');
  return (
    <form
      className="instrument-question"
      aria-label={`About ${name}`}
      onSubmit={(event) => {
        event.preventDefault();
        onKeep(evidenceOfFile(name, technique, of, state));
      }}
    >
      <p className="instrument-name">
        {name}
        {more > 0 && <span className="quiet"> and {more} more after it</span>}
      </p>
      <Radios title="What is it?" options={KINDS} value={technique} onChange={setTechnique} />
      <Radios title="Of what?" options={samples} value={of} onChange={setOf} />
      {infrared && (
        <Radios title="How was it measured?" options={STATES} value={state} onChange={setState} />
      )}
      {problem !== undefined && <p role="alert">{problem}</p>}
      <div className="instrument-ends">
        <button type="submit" className="button" data-rank="first">
          Keep it in the record
        </button>
        <button type="button" className="button" data-rank="plain" onClick={onLeave}>
          Leave it out
        </button>
      </div>
    </form>
  );
}

function Radios<T extends string>({
  title,
  options,
  value,
  onChange,
}: {
  readonly title: string;
  readonly options: readonly (readonly [T, string])[];
  readonly value: T;
  readonly onChange: (value: T) => void;
}) {
  const name = useId();
  return (
    <fieldset className="instrument-radios">
      <legend>{title}</legend>
      {options.map(([option, words]) => (
        <label key={option}>
          <input
            type="radio"
            name={name}
            checked={option === value}
            onChange={() => onChange(option)}
          />
          {words}
        </label>
      ))}
    </fieldset>
  );
}
