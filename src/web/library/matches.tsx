import { useMemo, useState } from 'react';
import { SIMILARITY_LIMITS, similarityWords } from '../../core/evidence/spectrum/library/words.ts';
import type { Spectrum, SpectrumHits } from '../../wire/spectrum.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { STATE_WORDS } from '../instrument/file-question.tsx';
import { Trace } from '../trace/trace.tsx';
import { Button } from '../ui/button.tsx';
import { Waiting } from '../ui/waiting.tsx';
import type { Asked } from './incoming.tsx';
import { overlaid } from './overlay.ts';
import { useReference, useSpectrumSearch } from './use-spectra.ts';

type Hit = SpectrumHits['alike'][number];

/** Two decimals: more would promise what a similarity cannot keep. */
export const similarityText = (similarity: number, decimal: DecimalSign): string =>
  (Math.floor(100 * similarity + 1e-6) / 100).toFixed(2).replace('.', decimal);

/** What a file is most like, and both traces over each other. */
export function Matches({
  asked,
  spectra,
  decimal,
  onClose,
}: {
  readonly asked: Asked;
  readonly spectra: readonly Spectrum[];
  readonly decimal: DecimalSign;
  readonly onClose: () => void;
}) {
  const search = useSpectrumSearch({ file: asked.file, state: asked.state });
  return (
    <section className="library-matches" aria-label={`What ${asked.name} is most like`}>
      <Waiting of={search}>
        {({ alike, searched }) => (
          <Found
            asked={asked}
            searched={searched}
            decimal={decimal}
            hits={alike.flatMap((hit) => {
              const spectrum = spectra.find(({ id }) => id === hit.id);
              return spectrum === undefined ? [] : [{ ...hit, spectrum }];
            })}
          />
        )}
      </Waiting>
      <div className="screen-only">
        <Button onClick={onClose}>Close the comparison</Button>
      </div>
    </section>
  );
}

interface FoundHit extends Hit {
  readonly spectrum: Spectrum;
}

function Found({
  asked,
  hits,
  searched,
  decimal,
}: {
  readonly asked: Asked;
  readonly hits: readonly FoundHit[];
  readonly searched: number;
  readonly decimal: DecimalSign;
}) {
  const [chosen, setChosen] = useState<string>();
  const shown = hits.find(({ id }) => id === chosen) ?? hits[0];
  if (shown === undefined)
    return (
      <>
        <h2>There is nothing to compare {asked.name} with.</h2>
        <p>
          {searched === 0
            ? 'The library is empty.'
            : 'No spectrum of the library has 1000 cm⁻¹ or more in common with it.'}
        </p>
      </>
    );
  const best = hits[0]!;
  return (
    <>
      <h2>
        {asked.name} is most like {best.spectrum.name}: {similarityText(best.similarity, decimal)}.
      </h2>
      <p>{similarityWords(best.similarity)}</p>
      <fieldset className="library-hits">
        <legend>Shown over it</legend>
        {hits.map((hit) => (
          <HitRow
            key={hit.id}
            hit={hit}
            decimal={decimal}
            checked={hit === shown}
            onChoose={() => setChosen(hit.id)}
          />
        ))}
      </fieldset>
      <p className="quiet">
        1 is the same shape, 0 none in common; {searched} compared. {SIMILARITY_LIMITS}
      </p>
      <Overlaid asked={asked} over={shown.spectrum} decimal={decimal} />
    </>
  );
}

function HitRow({
  hit: { similarity, spectrum, from_percm, to_percm },
  decimal,
  checked,
  onChoose,
}: {
  readonly hit: FoundHit;
  readonly decimal: DecimalSign;
  readonly checked: boolean;
  readonly onChoose: () => void;
}) {
  const isPart = from_percm > 700 || to_percm < 3900;
  return (
    <label className="library-hit">
      <input type="radio" name="library-hit" checked={checked} onChange={onChoose} />
      <span className="library-similarity">{similarityText(similarity, decimal)}</span>
      <span>
        {spectrum.name}
        {spectrum.state !== null && <span className="quiet">, {STATE_WORDS[spectrum.state]}</span>}
        {isPart && (
          <span className="quiet">
            , compared from {to_percm} to {from_percm} cm⁻¹ only
          </span>
        )}
      </span>
    </label>
  );
}

function Overlaid({
  asked,
  over,
  decimal,
}: {
  readonly asked: Asked;
  readonly over: Spectrum;
  readonly decimal: DecimalSign;
}) {
  const reference = useReference(over);
  const { spectrum } = asked;
  const view = useMemo(
    () =>
      reference.data &&
      overlaid(asked.name, spectrum, { name: over.name, spectrum: reference.data }),
    [asked.name, spectrum, over.name, reference.data],
  );
  return (
    <Waiting of={reference}>
      {() =>
        view !== undefined && (
          <>
            <Trace
              view={view}
              decimal={decimal}
              caption={{ name: `${asked.name} and ${over.name}` }}
            />
            <p className="quiet">
              Both without their background, {over.name} drawn as high as {asked.name}.
              {(asked.state === 'atr') !== (over.state === 'atr') &&
                ' ATR shows bands at high wavenumbers weaker than the others do; the similarity allows for that, the picture does not.'}
            </p>
          </>
        )
      }
    </Waiting>
  );
}
