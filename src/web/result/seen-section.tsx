import { dayAndHour, isDated } from './clock.ts';
import { photographsOf } from './seen.ts';
import type { Seen } from './seen.ts';
import './seen-section.css';

/** What was seen, in its order, with its photographs. */
export function SeenSection({ seen }: { readonly seen: readonly Seen[] }) {
  if (seen.length === 0) return null;
  return (
    <section aria-labelledby="result-seen">
      <h2 id="result-seen">What was seen</h2>
      <ol className="result-seen">
        {seen.map(({ entry, what, struck }) => (
          <li key={entry.id} id={`entry-${entry.id}`} tabIndex={-1}>
            <span className="when">
              {entry.step !== undefined && `step ${entry.step}`}
              <span>{isDated(entry.at) && dayAndHour(entry.at).hour}</span>
            </span>
            <div>
              {struck === undefined ? what : <del>{what}</del>}
              {struck !== undefined && <span className="reason"> Struck: {struck}</span>}
              <Photographs hashes={photographsOf(entry)} of={what} />
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Photographs({ hashes, of }: { readonly hashes: readonly string[]; readonly of: string }) {
  if (hashes.length === 0) return null;
  return (
    <div className="photographs">
      {hashes.map((hash, i) => (
        <a key={hash} href={`/api/attachments/${hash}`} target="_blank" rel="noreferrer">
          <img
            src={`/api/attachments/${hash}`}
            alt={`Photograph ${i + 1}: ${of === '' ? 'without words' : of}`}
          />
        </a>
      ))}
    </div>
  );
}
