import { useEffect, useState } from 'react';
import { Refused } from '../../api/request.ts';
import { schemeOf } from '../../api/deeds.ts';
import type { Enacted } from '../enacted.ts';
import { drawnWithDecimal } from '../../words/decimal-parts.ts';
import { useWords } from '../../words/use-words.ts';
import { picturesIn, schemeKey } from './pictures.ts';
import './scheme.css';

const PAUSE_ms = 500;

/**
 * The reactions, drawn by the server. The last drawing stays until the next one is there, and
 * without a network there is none.
 */
export function Scheme({ enacted }: { readonly enacted: Enacted }) {
  const [pictures, setPictures] = useState<readonly string[]>([]);
  const { decimal } = useWords();
  const key = schemeKey(enacted);
  useEffect(() => {
    const asked = new AbortController();
    const timer = setTimeout(
      () => {
        schemeOf(enacted.text, false, asked.signal)
          .then(({ svg }) => setPictures(svg === null ? [] : picturesIn(svg)))
          .catch((error: unknown) => {
            if (!asked.signal.aborted && !(error instanceof Refused)) throw error;
          });
      },
      pictures.length === 0 ? 0 : PAUSE_ms,
    );
    return () => {
      clearTimeout(timer);
      asked.abort();
    };
    // Only what the drawing shows asks for another one.
  }, [key]);
  if (pictures.length === 0) return null;
  return (
    <section
      className="experiment-scheme"
      aria-label="Reaction scheme"
      data-several={pictures.length > 1}
    >
      {pictures.map((svg, i) => (
        // Made by our server from names that it has escaped; attributes only, no styles.
        <div
          key={i}
          className="experiment-reaction"
          dangerouslySetInnerHTML={{ __html: drawnWithDecimal(svg, decimal) }}
        />
      ))}
    </section>
  );
}
