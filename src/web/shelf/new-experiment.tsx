import { useRef } from 'react';
import { Button } from '../ui/button.tsx';
import type { ShelfDeeds } from './use-shelf.ts';

/** Both ways to a new experiment. */
export function NewExperiment({ deeds }: { readonly deeds: ShelfDeeds }) {
  const file = useRef<HTMLInputElement>(null);
  return (
    <div className="shelf-new row-of-buttons">
      <Button rank="first" onClick={() => void deeds.startBlank()}>
        Start an experiment
      </Button>
      <Button onClick={() => file.current?.click()}>Add a file</Button>
      <input
        ref={file}
        type="file"
        hidden
        multiple
        accept=".md,.markdown,.txt,text/markdown,text/plain"
        aria-label="Files of experiments"
        onChange={({ target }) => {
          void deeds.addFiles([...(target.files ?? [])]);
          // So that the same file can be chosen again.
          target.value = '';
        }}
      />
    </div>
  );
}
