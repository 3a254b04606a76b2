import { useEffect, useId, useRef, useState } from 'react';
import type { FormEvent } from 'react';
import { addSubstance } from '../../../core/experiment/edit/add-substance.ts';
import { Button } from '../../ui/button.tsx';
import type { Desk } from '../desk.ts';
import { substanceOf } from './substance-form.ts';
import type { SubstanceFields } from './substance-form.ts';
import { SubstanceInputs } from './substance-inputs.tsx';
import './substance.css';

/** A substance that the table does not know: its name and structure become a line of the text. */
export function AddSubstance({
  desk,
  name,
  onDone,
}: {
  readonly desk: Desk;
  readonly name: string;
  readonly onDone: () => void;
}) {
  const id = useId();
  const first = useRef<HTMLInputElement>(null);
  const [fields, setFields] = useState<SubstanceFields>({
    name,
    smiles: '',
    state: '',
    density: '',
  });
  const [refused, setRefused] = useState<string>();
  const set = (change: Partial<SubstanceFields>) => {
    setFields((before) => ({ ...before, ...change }));
    setRefused(undefined);
  };
  useEffect(() => first.current?.focus(), []);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const made = substanceOf(fields);
    if (!made.ok) return setRefused(made.why);
    const edit = addSubstance(desk.now().enacted.text, made.substance);
    if (!edit.ok) return setRefused([edit.why, edit.hint].filter(Boolean).join(' '));
    const { from, insert } = edit.change;
    desk.edit({ changes: edit.change, userEvent: 'input.substance' });
    onDone();
    // To the line that was written, so that it can be seen and gone on from.
    desk.goTo(from + insert.trimEnd().length, { focus: true });
  };
  return (
    <section className="experiment-substance screen-only" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>A substance that the table does not know</h2>
      <p>
        It is written under “Substances” in the text, and this experiment knows it from then on.
      </p>
      <form onSubmit={submit}>
        <SubstanceInputs fields={fields} set={set} nameRef={first} />
        <p role="status" className="experiment-wrong">
          {refused}
        </p>
        <div className="row-of-buttons">
          <Button type="submit" rank="first">
            Write it into the text
          </Button>
          <Button rank="plain" onClick={onDone}>
            Leave it
          </Button>
        </div>
      </form>
    </section>
  );
}
