import { useState } from 'react';
import type { RunOpened } from '../../wire/run.ts';
import { Button } from '../ui/button.tsx';
import { AddRecord } from './add-record.tsx';
import { recordFileName, recordText } from './record-file.ts';
import type { RecordForm } from './record-file.ts';

const TYPES: Readonly<Record<RecordForm, string>> = {
  csv: 'text/csv;charset=utf-8',
  json: 'application/json',
};

/** The record as a file, and files made elsewhere into the record. */
export function RecordSection({ run }: { readonly run: RunOpened }) {
  const [said, setSaid] = useState('');
  const save = async (form: RecordForm): Promise<void> => {
    try {
      const text = await recordText(
        run.kept.map(({ entry }) => entry),
        form,
      );
      const name = recordFileName(run, form);
      offer(new Blob([text], { type: TYPES[form] }), name);
      setSaid(`Written as ${name}.`);
    } catch {
      setSaid('The file could not be written. Is there a network? Try again.');
    }
  };
  const empty = run.kept.length === 0;
  return (
    <section className="screen-only" aria-labelledby="result-record">
      <h2 id="result-record">The record as a file</h2>
      <p>Every entry as it was made, struck ones too.</p>
      <div className="row-of-buttons">
        <Button onClick={() => void save('csv')} disabled={empty}>
          Save as a table (CSV)
        </Button>
        <Button onClick={() => void save('json')} disabled={empty}>
          Save as JSON
        </Button>
        <span role="status" className="quiet">
          {said}
        </span>
      </div>
      <AddRecord run={run} />
    </section>
  );
}

function offer(blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has begun to read it by the time the next task runs.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}
