import { useState } from 'react';
import type { Spectrum } from '../../wire/spectrum.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { countText, named, questionIn } from './question.ts';
import { SpectrumRow } from './spectrum-row.tsx';
import type { LibraryDeeds } from './use-library.ts';
import { useSpectrumSearch } from './use-spectra.ts';

const TOLERANCES_percm = [5, 10, 15, 20, 30] as const;

/** A list of thousands would be slow to draw, and nobody reads it. */
const MOST_SHOWN = 200;

interface ListProps {
  readonly all: readonly Spectrum[];
  readonly decimal: DecimalSign;
  readonly deeds: LibraryDeeds | undefined;
}

/** The library, by name; a part of a name or places of bands find in it. */
export function SpectrumList({ all, decimal, deeds }: ListProps) {
  const [text, setText] = useState('');
  const [tolerance_percm, setTolerance] = useState<number>(10);
  const question = questionIn(text);
  const search = useSpectrumSearch(
    question.kind === 'bands'
      ? { bands_percm: [...question.bands_percm], tolerance_percm }
      : undefined,
  );
  const byBands = question.kind === 'bands' ? (search.data?.byBands ?? []) : undefined;
  const found =
    byBands === undefined
      ? named(all, question.kind === 'name' ? question.words : []).map((spectrum) => ({
          spectrum,
          bands: undefined,
        }))
      : byBands.flatMap(({ id, bands }) => {
          const spectrum = all.find((each) => each.id === id);
          return spectrum === undefined ? [] : [{ spectrum, bands }];
        });
  return (
    <section aria-label="The library">
      <div className="library-search screen-only">
        <label htmlFor="library-search">Find</label>
        <input
          id="library-search"
          type="search"
          placeholder="name, or bands: 1715 1220"
          value={text}
          onChange={({ target }) => setText(target.value)}
        />
        {question.kind === 'bands' && (
          <label className="library-tolerance">
            within
            <select
              value={tolerance_percm}
              onChange={({ target }) => setTolerance(Number(target.value))}
            >
              {TOLERANCES_percm.map((each) => (
                <option key={each} value={each}>
                  ± {each} cm⁻¹
                </option>
              ))}
            </select>
          </label>
        )}
        <span role="status" className="quiet">
          {saidOf(text, found.length, all.length, question.kind === 'bands' && search.isPending)}
          {search.isError && ' The search did not work. Try again.'}
        </span>
      </div>
      <ul className="library-rows">
        {found.slice(0, MOST_SHOWN).map(({ spectrum, bands }) => (
          <SpectrumRow
            key={spectrum.id}
            spectrum={spectrum}
            decimal={decimal}
            deeds={deeds}
            bands={bands}
          />
        ))}
      </ul>
      {found.length > MOST_SHOWN && (
        <p>
          The first {MOST_SHOWN} of {found.length} are shown. A part of the name finds the others.
        </p>
      )}
    </section>
  );
}

function saidOf(text: string, found: number, all: number, waiting: boolean): string {
  if (text.trim() === '' || waiting) return '';
  return found === 0 ? 'None.' : `${found} of ${countText(all)}.`;
}
