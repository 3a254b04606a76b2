import { useState } from 'react';
import { Button } from '../../ui/button.tsx';
import type { Desk } from '../desk.ts';
import { TextEditor } from '../editor/text-editor.tsx';
import { FlowSheet } from '../sheet/flow-sheet.tsx';
import './panes.css';

/** The text and its flow sheet: side by side, or the sheet below over the whole width. */
export function Panes({ desk }: { readonly desk: Desk }) {
  const [whole, setWhole] = useState(false);
  return (
    <div className="experiment-panes screen-only" data-whole={whole}>
      <TextEditor desk={desk} />
      <div className="experiment-sheet-pane" id="flow-sheet">
        <FlowSheet desk={desk} />
        <div className="experiment-sheet-deeds">
          <Button rank="plain" onClick={() => setWhole(!whole)}>
            {whole ? 'Flow sheet beside the text' : 'Flow sheet over the whole width'}
          </Button>
        </div>
      </div>
    </div>
  );
}
