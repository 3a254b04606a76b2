import { useEffect, useId, useState } from 'react';
import type { Edit } from '../../../core/experiment/edit/change.ts';

/**
 * The amount as the sentence has it, open to be changed. Enter or leaving the field writes it into the
 * text; what cannot be written stays in the field with the reason under it.
 */
export function AmountInput({
  label,
  written,
  write,
}: {
  readonly label: string;
  readonly written: string;
  /** Changes the text, or says why not. */
  readonly write: (amount: string) => Edit;
}) {
  const id = useId();
  const [typed, setTyped] = useState(written);
  const [refused, setRefused] = useState<string>();
  useEffect(() => {
    setTyped(written);
    setRefused(undefined);
  }, [written]);
  const take = () => {
    if (typed.trim() === written.trim()) {
      setTyped(written);
      return setRefused(undefined);
    }
    const edit = write(typed.trim());
    setRefused(edit.ok ? undefined : [edit.why, edit.hint].filter(Boolean).join(' '));
  };
  return (
    <span className="experiment-amount">
      <input
        aria-label={label}
        aria-invalid={refused !== undefined}
        aria-describedby={refused === undefined ? undefined : id}
        value={typed}
        size={Math.max(7, typed.length)}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') {
            setTyped(written);
            setRefused(undefined);
          }
        }}
      />
      {refused !== undefined && (
        <span id={id} role="alert" className="experiment-refused">
          {refused}
        </span>
      )}
    </span>
  );
}
