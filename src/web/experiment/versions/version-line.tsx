import { useState } from 'react';
import { Link } from 'react-router';
import { Button } from '../../ui/button.tsx';
import type { Kept } from '../keep/keeping.ts';
import { whenText } from '../../ui/when.ts';
import { KeepingWord } from './keeping-word.tsx';
import { NameVersion } from '../../versions/name-version.tsx';
import '../../versions/versions.css';

/** Which version this is, how it is kept, and what can be done with it. */
export function VersionLine({
  experiment,
  kept,
  onNamed,
  onBench,
  benchOpen,
}: {
  readonly experiment: string;
  readonly kept: Kept;
  readonly onNamed: (name: string | null) => Promise<void>;
  readonly onBench: () => void;
  readonly benchOpen: boolean;
}) {
  const [naming, setNaming] = useState(false);
  const { number, savedAt, name } = kept.base;
  const from = Math.max(1, number - 1);
  return (
    <div className="experiment-version">
      <p className="experiment-version-words">
        <span>
          Version {number}
          {name !== null && <strong> {name}</strong>}, saved{' '}
          <time dateTime={savedAt}>{whenText(savedAt)}</time>
        </span>
        <KeepingWord kept={kept} />
      </p>
      {naming ? (
        <NameVersion
          number={number}
          name={name}
          onDone={async (next) => {
            if (next !== undefined) await onNamed(next);
            setNaming(false);
          }}
        />
      ) : (
        <div className="row-of-buttons screen-only experiment-deeds">
          <Button rank="plain" onClick={() => setNaming(true)}>
            {name === null ? 'Name this version' : 'Rename this version'}
          </Button>
          <Link
            className="button"
            data-rank="plain"
            to={`/experiments/${experiment}/compare?from=${from}&to=${number}`}
          >
            Compare versions
          </Link>
          <Button rank="plain" onClick={() => window.print()}>
            Print
          </Button>
          <Button rank="plain" aria-expanded={benchOpen} onClick={onBench}>
            Start a bench record
          </Button>
        </div>
      )}
    </div>
  );
}
