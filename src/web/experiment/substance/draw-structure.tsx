import { useEffect, useRef, useState } from 'react';

/** Draws a structure with the mouse or a finger; fetched only when someone wants to draw. */
export function DrawStructure({
  smiles,
  onDrawn,
}: {
  readonly smiles: string;
  readonly onDrawn: (smiles: string) => void;
}) {
  const host = useRef<HTMLDivElement>(null);
  const drawn = useRef(onDrawn);
  drawn.current = onDrawn;
  const [state, setState] = useState<'fetching' | 'ready' | 'lost'>('fetching');
  useEffect(() => {
    let end: (() => void) | undefined;
    let left = false;
    import('openchemlib')
      .then(({ CanvasEditor, Molecule }) => {
        if (left || host.current === null) return;
        const canvas = new CanvasEditor(host.current);
        end = () => canvas.destroy();
        try {
          if (smiles.trim() !== '') canvas.setMolecule(Molecule.fromSmiles(smiles.trim()));
        } catch {
          // What cannot be read yet is drawn from the beginning.
        }
        canvas.setOnChangeListener(({ type, isUserEvent }) => {
          if (type === 'molecule' && isUserEvent)
            drawn.current(canvas.getMolecule().toIsomericSmiles());
        });
        setState('ready');
      })
      .catch(() => setState('lost'));
    return () => {
      left = true;
      end?.();
    };
    // It begins with what was written then; afterwards the drawing leads.
  }, []);
  return (
    <div className="experiment-drawing">
      {state !== 'ready' && (
        <p role="status" className="quiet">
          {state === 'fetching'
            ? 'Fetching the drawing board …'
            : 'The drawing board cannot be fetched now.'}
        </p>
      )}
      <div
        ref={host}
        className="experiment-board"
        role="application"
        aria-label="Drawing board; the SMILES field says the same in letters"
      />
    </div>
  );
}
