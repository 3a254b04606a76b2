import { useId, useRef, useState } from 'react';
import { useDraft } from '../device/stored.ts';
import { sha256 } from '../photo/sha256.ts';
import { photoOf } from '../photo/shrink.ts';
import { useRecord } from '../record-context.ts';
import { observation } from '../record/new-entry.ts';
import type { BenchStep } from '../sheet.ts';
import { useEnter } from './use-enter.ts';
import { withWord } from './observed-words.ts';
import { OBSERVED } from './observed-words.ts';

/** What was seen: words of the trade for one tap, one's own, and a photo. */
export function Observe({ step }: { readonly step: BenchStep }) {
  const { run, writer, settings } = useRecord();
  const { enter, problem } = useEnter();
  const [words, setWords] = useDraft(`${run.id} ${step.id} seen`);
  const id = useId();
  const text = words.trim();
  const put = async () => {
    if (text !== '' && (await enter(observation(writer, step.id, text)))) setWords('');
  };
  return (
    <form
      className="bench-observe"
      onSubmit={(event) => {
        event.preventDefault();
        void put();
      }}
    >
      <label htmlFor={id}>What do you see?</label>
      <textarea
        id={id}
        rows={1}
        maxLength={5000}
        value={words}
        onChange={({ target }) => setWords(target.value)}
      />
      <div className="bench-observe-words">
        {OBSERVED[settings.terms].map((word) => (
          <button
            key={word}
            type="button"
            className="bench-word"
            onClick={() => setWords(withWord(words, word))}
          >
            {word}
          </button>
        ))}
      </div>
      {problem !== undefined && <p role="alert">{problem}</p>}
      <div className="bench-observe-ends">
        {text !== '' && (
          <button type="submit" className="bench-target">
            Enter it
          </button>
        )}
        <PhotoTarget
          onPhoto={async (file) => {
            const photo = await photoOf(file);
            const hash = await sha256(new Uint8Array(photo.bytes));
            const seen = observation(writer, step.id, text === '' ? 'Photo' : text, [hash]);
            if (await enter(seen, [{ hash, ...photo }])) setWords('');
          }}
        />
      </div>
    </form>
  );
}

/** Taken, made small and entered at once, with the words that stand beside it. */
function PhotoTarget({ onPhoto }: { readonly onPhoto: (file: File) => Promise<void> }) {
  const [busy, setBusy] = useState(false);
  const [unread, setUnread] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setBusy(true);
    setUnread(false);
    try {
      await onPhoto(file);
    } catch {
      setUnread(true);
    }
    setBusy(false);
    if (input.current !== null) input.current.value = '';
  };
  return (
    <label className="bench-target bench-photo">
      {busy ? 'Keeping the photo …' : 'Photo'}
      <input
        ref={input}
        type="file"
        accept="image/*"
        capture="environment"
        onChange={({ target }) => void take(target.files?.[0])}
      />
      {unread && <span role="alert">This photo cannot be read. Take it again.</span>}
    </label>
  );
}
