import { useMemo, useState } from 'react';
import type { Spectrum, SpectrumHits } from '../../wire/spectrum.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { STATE_WORDS } from '../instrument/file-question.tsx';
import { Trace } from '../trace/trace.tsx';
import { Button } from '../ui/button.tsx';
import { useDark } from '../ui/use-dark.ts';
import { Waiting } from '../ui/waiting.tsx';
import { whenText } from '../ui/when.ts';
import { overlaid } from './overlay.ts';
import { SpectrumFields } from './spectrum-form.tsx';
import type { Said } from './spectrum-form.tsx';
import type { LibraryDeeds } from './use-library.ts';
import { useReference } from './use-spectra.ts';

export interface RowProps {
  readonly spectrum: Spectrum;
  readonly decimal: DecimalSign;
  /** Absent for a bench, which only reads. */
  readonly deeds: LibraryDeeds | undefined;
  /** The bands that it was found by. */
  readonly bands?: SpectrumHits['byBands'][number]['bands'] | undefined;
}

/** A reference: its name, structure and state, and what one can do with it. */
export function SpectrumRow({ spectrum, decimal, deeds, bands }: RowProps) {
  const [open, setOpen] = useState<'trace' | 'form'>();
  const { id, name, smiles, state, addedAt, addedBy, putAway } = spectrum;
  const toggle = (part: 'trace' | 'form') => setOpen(open === part ? undefined : part);
  return (
    <li className="library-row">
      {smiles === null ? <span /> : <Drawing smiles={smiles} />}
      <div>
        <h3>{name}</h3>
        <p className="quiet">
          {state === null ? 'not known how measured' : STATE_WORDS[state]}; added by {addedBy},{' '}
          {whenText(addedAt)}
        </p>
        {bands !== undefined && (
          <p className="library-bands">
            {bands
              .map(
                ({ position_percm, share }) => `${Math.round(position_percm)} (${strength(share)})`,
              )
              .join(', ')}{' '}
            cm⁻¹
          </p>
        )}
      </div>
      <div className="library-deeds screen-only">
        <Button
          rank="plain"
          aria-expanded={open === 'trace'}
          aria-controls={`below-${id}`}
          onClick={() => toggle('trace')}
        >
          Trace <span className="spoken">of {name}</span>
        </Button>
        {deeds !== undefined && (
          <>
            <Button
              rank="plain"
              aria-expanded={open === 'form'}
              aria-controls={`below-${id}`}
              onClick={() => toggle('form')}
            >
              Change <span className="spoken">{name}</span>
            </Button>
            <Button rank="plain" onClick={() => void deeds.putAway(spectrum, !putAway)}>
              {putAway ? 'Bring back' : 'Put away'} <span className="spoken">{name}</span>
            </Button>
          </>
        )}
      </div>
      <div id={`below-${id}`} className="library-below" hidden={open === undefined}>
        {open === 'trace' && <OwnTrace spectrum={spectrum} decimal={decimal} />}
        {open === 'form' && deeds !== undefined && (
          <ChangeForm spectrum={spectrum} deeds={deeds} onDone={() => setOpen(undefined)} />
        )}
      </div>
    </li>
  );
}

/** Beside the most prominent band of the spectrum, in the words of band tables. */
const strength = (share: number): string =>
  share >= 0.6 ? 'strong' : share >= 0.2 ? 'medium' : 'weak';

function Drawing({ smiles }: { readonly smiles: string }) {
  const dark = useDark();
  const [failed, setFailed] = useState(false);
  if (failed) return <span />;
  return (
    <img
      className="library-drawing"
      src={`/api/drawings?smiles=${encodeURIComponent(smiles)}&dark=${dark ? 1 : 0}`}
      alt=""
      loading="lazy"
      onError={() => setFailed(true)}
    />
  );
}

function OwnTrace({ spectrum, decimal }: Pick<RowProps, 'spectrum' | 'decimal'>) {
  const reference = useReference(spectrum);
  const { name, state } = spectrum;
  const view = useMemo(
    () => reference.data && overlaid(name, reference.data),
    [name, reference.data],
  );
  return (
    <Waiting of={reference}>
      {() =>
        view !== undefined && (
          <Trace
            view={view}
            decimal={decimal}
            caption={{ name, ...(state !== null && { state: STATE_WORDS[state] }) }}
          />
        )
      }
    </Waiting>
  );
}

function ChangeForm({
  spectrum,
  deeds,
  onDone,
}: {
  readonly spectrum: Spectrum;
  readonly deeds: LibraryDeeds;
  readonly onDone: () => void;
}) {
  const { name, smiles, state } = spectrum;
  const [said, setSaid] = useState<Said>({ name, structure: smiles ?? '', state });
  return (
    <form
      aria-label={`Change ${name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void deeds.change(spectrum, said).then((done) => done && onDone());
      }}
    >
      <SpectrumFields said={said} onChange={setSaid} />
      <div className="row-of-buttons">
        <Button type="submit">Keep the change</Button>
        <Button rank="plain" onClick={onDone}>
          Leave it as it was
        </Button>
      </div>
    </form>
  );
}
