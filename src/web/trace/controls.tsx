import { useState } from 'react';
import { AXES } from '../../picture/spectrum/axis.ts';
import type { SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import { Button } from '../ui/button.tsx';
import { KEYS_SAID } from './instrument.ts';
import type { Act, Look } from './instrument.ts';
import { savePng, saveSvg } from './save-picture.ts';

/** What one does most stands in the open; how it is drawn, and saving, a tap further. */
export function Controls({
  view,
  look,
  whole,
  act,
  picture,
  fileName,
}: {
  readonly view: SpectrumView;
  readonly look: Look;
  readonly whole: boolean;
  readonly act: (act: Act) => void;
  /** As it stands on paper. */
  readonly picture: () => string;
  readonly fileName: string;
}) {
  return (
    <div className="trace-controls">
      <div className="row-of-buttons">
        <span className="trace-either">
          <Button
            aria-label="Further back"
            aria-disabled={whole}
            onClick={() => act({ kind: 'zoom', factor: 1 / 1.5 })}
          >
            −
          </Button>
          <Button aria-label="Closer" onClick={() => act({ kind: 'zoom', factor: 1.5 })}>
            +
          </Button>
        </span>
        <Button aria-disabled={whole} onClick={() => act({ kind: 'whole' })}>
          Whole range
        </Button>
        {view.bands.length > 0 && (
          <span className="trace-either">
            <Button aria-label="Band to the left" onClick={() => act({ kind: 'band', way: -1 })}>
              ‹ Band
            </Button>
            <Button aria-label="Band to the right" onClick={() => act({ kind: 'band', way: 1 })}>
              Band ›
            </Button>
          </span>
        )}
        {view.yAxis !== 'intensity' && (
          <Either
            label="Height"
            chosen={look.yAxis === 'absorbance' ? 'absorbance' : 'transmittance'}
            choices={{ transmittance: '%T', absorbance: 'Absorbance' }}
            choose={(yAxis) => act({ kind: 'height', yAxis })}
          />
        )}
        <Button aria-pressed={look.fitHeight} onClick={() => act({ kind: 'fit' })}>
          Fit height
        </Button>
      </div>
      <details>
        <summary>How it is drawn, keys, saving</summary>
        <Drawing view={view} look={look} act={act} />
        <Saving picture={picture} fileName={fileName} />
        <p className="quiet">
          {KEYS_SAID} Fit height makes the most of what is seen. Drag to move along, pinch or turn
          the wheel with Ctrl to come closer; hold Shift to point at bands.
        </p>
      </details>
    </div>
  );
}

function Drawing({
  view,
  look,
  act,
}: {
  readonly view: SpectrumView;
  readonly look: Look;
  readonly act: (act: Act) => void;
}) {
  const { split } = AXES[view.axis ?? 'wavenumber'];
  return (
    <div className="row-of-buttons">
      {split !== undefined && (
        <Either
          label="Scale"
          chosen={look.scale}
          choices={{ split: `Wider below ${split}`, even: 'Even' }}
          choose={(scale) => act({ kind: 'scale', scale })}
        />
      )}
      <Button aria-pressed={look.snaps} onClick={() => act({ kind: 'snaps' })}>
        Cursor goes to bands
      </Button>
    </div>
  );
}

/** One of two or more, all of them seen. */
function Either<C extends string>({
  label,
  chosen,
  choices,
  choose,
}: {
  readonly label: string;
  readonly chosen: C;
  readonly choices: Readonly<Record<C, string>>;
  readonly choose: (choice: C) => void;
}) {
  return (
    <span className="trace-either" role="group" aria-label={label}>
      {(Object.keys(choices) as C[]).map((choice) => (
        <Button key={choice} aria-pressed={choice === chosen} onClick={() => choose(choice)}>
          {choices[choice]}
        </Button>
      ))}
    </span>
  );
}

function Saving({
  picture,
  fileName,
}: {
  readonly picture: () => string;
  readonly fileName: string;
}) {
  const [failed, setFailed] = useState(false);
  return (
    <>
      <div className="row-of-buttons">
        <Button onClick={() => saveSvg(picture(), fileName)}>Save as SVG</Button>
        <Button
          onClick={() => {
            void savePng(picture(), fileName).then((made) => setFailed(!made));
          }}
        >
          Save as PNG
        </Button>
      </div>
      <p role="status">
        {failed ? 'This browser could not make the PNG. The SVG holds the same picture.' : ''}
      </p>
    </>
  );
}
