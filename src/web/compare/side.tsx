import { useId } from 'react';
import type { Version } from '../../wire/experiment.ts';
import { Button } from '../ui/button.tsx';
import { whenText } from '../ui/when.ts';
import { versionLabel } from './choice.ts';
import { VersionName } from './version-name.tsx';

/** One of the two versions: which it is, its name, the way back to it. */
export function Side({
  title,
  experiment,
  versions,
  number,
  choose,
  goBack,
}: {
  readonly title: string;
  readonly experiment: string;
  readonly versions: readonly Version[];
  readonly number: number;
  readonly choose: (number: number) => void;
  readonly goBack: (version: Version) => void;
}) {
  const id = useId();
  const named = versions.filter(({ name }) => name !== null);
  const others = versions.filter(({ name }) => name === null);
  const version = versions.find((each) => each.number === number);
  return (
    <div className="compare-side">
      <label htmlFor={id}>{title}</label>
      <select id={id} value={number} onChange={({ target }) => choose(Number(target.value))}>
        {named.length > 0 && (
          <optgroup label="Named">
            {named.map((each) => (
              <option key={each.number} value={each.number}>
                {versionLabel(each)}
              </option>
            ))}
          </optgroup>
        )}
        <optgroup label="Saved on the way">
          {others.map((each) => (
            <option key={each.number} value={each.number}>
              {versionLabel(each)}
            </option>
          ))}
        </optgroup>
      </select>
      {version !== undefined && (
        <>
          <p className="quiet">
            Saved {whenText(version.savedAt)}
            {version.savedBy !== '' && ` by ${version.savedBy}`}
            {version === versions[0] && '; the newest'}
          </p>
          <div className="row-of-buttons compare-deeds">
            <VersionName key={number} experiment={experiment} version={version} />
            {version !== versions[0] && (
              <Button rank="plain" onClick={() => goBack(version)}>
                Go back to version {number}
              </Button>
            )}
          </div>
        </>
      )}
    </div>
  );
}
