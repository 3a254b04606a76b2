import { useId, useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { useWords } from '../../words/use-words.ts';
import { DrawStructure } from './draw-structure.tsx';
import { StructureSaid } from './structure-said.tsx';

/** A structure in letters, or drawn; either way the letters are what is kept. */
export function StructureField({
  smiles,
  onChange,
}: {
  readonly smiles: string;
  readonly onChange: (smiles: string) => void;
}) {
  const id = useId();
  const words = useWords();
  const [drawing, setDrawing] = useState(false);
  return (
    <>
      <div className="field experiment-structure-field">
        <label htmlFor={id}>Structure, as SMILES</label>
        <div className="row-of-buttons">
          <input
            id={id}
            value={smiles}
            autoComplete="off"
            autoCapitalize="off"
            spellCheck={false}
            onChange={(event) => onChange(event.target.value)}
          />
          <Button aria-expanded={drawing} onClick={() => setDrawing(!drawing)}>
            {drawing ? 'Put the drawing board away' : 'Draw it'}
          </Button>
        </div>
        <StructureSaid smiles={smiles} words={words} />
      </div>
      {drawing && <DrawStructure smiles={smiles} onDrawn={onChange} />}
    </>
  );
}
