import { useId } from 'react';
import { useDraft } from '../device/stored.ts';

/** A line for words that one field asks for. */
export function WordsField({
  place,
  label,
  problem,
  onEnter,
}: {
  readonly place: string;
  readonly label: string;
  readonly problem: string | undefined;
  readonly onEnter: (words: string) => Promise<boolean>;
}) {
  const id = useId();
  const [words, setWords] = useDraft(place);
  const enter = async () => {
    if (words.trim() !== '' && (await onEnter(words.trim()))) setWords('');
  };
  return (
    <form
      className="bench-words-field"
      onSubmit={(event) => {
        event.preventDefault();
        void enter();
      }}
    >
      <label className="spoken" htmlFor={id}>
        {label}
      </label>
      <textarea
        id={id}
        rows={2}
        maxLength={5000}
        value={words}
        onChange={({ target }) => setWords(target.value)}
      />
      {problem !== undefined && <p role="alert">{problem}</p>}
      {words.trim() !== '' && (
        <button type="submit" className="bench-target">
          Enter it
        </button>
      )}
    </form>
  );
}
