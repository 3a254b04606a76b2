import { useId } from 'react';
import type { RefObject } from 'react';
import { StructureField } from './structure-field.tsx';
import type { SubstanceFields } from './substance-form.ts';

export function SubstanceInputs({
  fields,
  set,
  nameRef,
}: {
  readonly fields: SubstanceFields;
  readonly set: (change: Partial<SubstanceFields>) => void;
  readonly nameRef: RefObject<HTMLInputElement | null>;
}) {
  const id = useId();
  return (
    <>
      <div className="field">
        <label htmlFor={`${id}-name`}>Name</label>
        <input
          ref={nameRef}
          id={`${id}-name`}
          value={fields.name}
          autoComplete="off"
          onChange={(event) => set({ name: event.target.value })}
        />
        <span className="aid">As the sentences call it.</span>
      </div>
      <StructureField smiles={fields.smiles} onChange={(smiles) => set({ smiles })} />
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
    </>
  );
}
