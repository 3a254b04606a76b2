import { useState } from 'react';
import { useRecord } from '../record-context.ts';
import { figureText, remarkOf } from '../record/entry-text.ts';
import type { WaitingFile } from '../outbox/database.ts';
import type { Line } from '../record/standing.ts';
import { dayOf, timeOfDay } from '../record/timers.ts';
import { balanceLabel } from '../device/preferences.ts';
import './line.css';

/** A line of the record as it stands, or struck through with the reason. */
export function LineText({ line }: { readonly line: Line }) {
  const { settings } = useRecord();
  const { entry, struck } = line;
  const figure = figureText(entry, settings.decimalSign);
  const remark = remarkOf(entry);
  const words = (
    <>
      {figure !== '' && <span className="bench-figure">{figure}</span>}
      {remark !== undefined && <span className="bench-words">{remark}</span>}
    </>
  );
  return struck === undefined ? (
    words
  ) : (
    <>
      <span className="spoken">struck: </span>
      <s className="bench-struck">{words}</s>
    </>
  );
}

/** Who wrote a line and when, and how far it came. */
export function LineOrigin({ line }: { readonly line: Line }) {
  const { settings, waiting, lines } = useRecord();
  const { entry, struck, adrift } = line;
  const refusal = waiting.get(entry.id);
  const state = refusal !== undefined ? 'not taken' : waiting.has(entry.id) ? 'to send' : undefined;
  const day = dayOf(entry.at);
  const origin = [
    // The day of the record stands at its head.
    day === dayOf(lines[0]!.entry.at) ? '' : day,
    timeOfDay(entry.at),
    entry.by,
    entry.instrument === undefined ? '' : balanceLabel(entry.instrument, settings),
    state,
  ].filter((word) => word !== undefined && word !== '');
  return (
    <span className="bench-origin">
      {origin.join(' · ')}
      {struck !== undefined && <StruckWhy struck={struck} />}
      {adrift && <span>corrects a line that is not here; not counted</span>}
      {refusal !== undefined && <strong>{refusal.message}</strong>}
    </span>
  );
}

function StruckWhy({ struck }: { readonly struck: NonNullable<Line['struck']> }) {
  const act = struck.replaced ? 'corrected' : 'withdrawn';
  const who = [timeOfDay(struck.at), struck.by].filter((word) => word !== '').join(' ');
  const reason = struck.reason === undefined ? '' : `: ${struck.reason}`;
  return (
    <span>
      {act} {who}
      {reason}
    </span>
  );
}

/** Photos of a line: from this device until the server has them. */
export function LinePhotos({ line }: { readonly line: Line }) {
  const { attachments = [], text, evidence } = line.entry;
  if (attachments.length === 0 || evidence !== undefined) return null;
  return (
    <span className="bench-photos">
      {attachments.map((hash) => (
        <Photo key={hash} hash={hash} alt={`Photo: ${text ?? ''}`} />
      ))}
    </span>
  );
}

function Photo({ hash, alt }: { readonly hash: string; readonly alt: string }) {
  const { files } = useRecord();
  const [lost, setLost] = useState(false);
  const file = files.find((each) => each.hash === hash);
  if (file?.refusal !== undefined)
    return <strong className="bench-origin">Photo not taken: {file.refusal.message}</strong>;
  if (lost) return <span className="bench-origin">Photo, to be seen when there is a network</span>;
  return (
    <img
      src={file === undefined ? `/api/attachments/${hash}` : addressOf(file)}
      alt={alt}
      onError={() => setLost(true)}
    />
  );
}

/** An address for bytes that are on this device; one for each, for as long as the page is open. */
const ADDRESSES = new Map<string, string>();

function addressOf({ hash, bytes, mediaType }: WaitingFile): string {
  const address =
    ADDRESSES.get(hash) ?? URL.createObjectURL(new Blob([bytes], { type: mediaType }));
  ADDRESSES.set(hash, address);
  return address;
}
