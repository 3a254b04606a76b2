import { useEffect, useId, useRef, useState } from 'react';
import type { FormEvent } from 'react';
import { addSubstance } from '../../../core/experiment/edit/add-substance.ts';
import { Button } from '../../ui/button.tsx';
import type { Desk } from '../desk.ts';
import { useWords } from '../words/use-words.ts';
import { DrawStructure } from './draw-structure.tsx';
import { StructureSaid } from './structure-said.tsx';
import { substanceOf } from './substance-form.ts';
import type { SubstanceFields } from './substance-form.ts';
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
  const [drawing, setDrawing] = useState(false);
  const [refused, setRefused] = useState<string>();
  const words = useWords();
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
    desk.edit({ changes: edit.change, userEvent: 'input.substance' });
    onDone();
  };
  return (
    <section className="experiment-substance screen-only" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>A substance that the table does not know</h2>
      <p>
        It is written under “Substances” in the text, and this experiment knows it from then on.
      </p>
      <form onSubmit={submit}>
        <div className="field">
          <label htmlFor={`${id}-name`}>Name</label>
          <input
            ref={first}
            id={`${id}-name`}
            value={fields.name}
            autoComplete="off"
            onChange={(event) => set({ name: event.target.value })}
          />
          <span className="aid">As the sentences call it.</span>
        </div>
        <div className="field experiment-structure-field">
          <label htmlFor={`${id}-smiles`}>Structure, as SMILES</label>
          <div className="row-of-buttons">
            <input
              id={`${id}-smiles`}
              value={fields.smiles}
              autoComplete="off"
              autoCapitalize="off"
              spellCheck={false}
              onChange={(event) => set({ smiles: event.target.value })}
            />
            <Button aria-expanded={drawing} onClick={() => setDrawing(!drawing)}>
              {drawing ? 'Put the drawing board away' : 'Draw it'}
            </Button>
          </div>
          <StructureSaid smiles={fields.smiles} words={words} />
        </div>
        {drawing && <DrawStructure smiles={fields.smiles} onDrawn={(smiles) => set({ smiles })} />}
        <div className="experiment-pair">
          <div className="field">
            <label htmlFor={`${id}-state`}>State at 20 °C</label>
            <select
              id={`${id}-state`}
              value={fields.state}
              onChange={(event) => set({ state: event.target.value as SubstanceFields['state'] })}
            >
              <option value="">not said</option>
              <option value="solid">solid</option>
              <option value="liquid">liquid</option>
              <option value="gas">gas</option>
            </select>
          </div>
          <div className="field">
            <label htmlFor={`${id}-density`}>Density in g/mL</label>
            <input
              id={`${id}-density`}
              value={fields.density}
              inputMode="decimal"
              autoComplete="off"
              onChange={(event) => set({ density: event.target.value })}
            />
            <span className="aid">Needed where a volume is measured.</span>
          </div>
        </div>
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
