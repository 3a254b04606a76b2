import { useRecord } from '../record-context.ts';
import { aboutText } from '../record/entry-text.ts';
import { linesOfStep } from '../record/place.ts';
import type { StepLines } from '../record/place.ts';
import type { Line } from '../record/standing.ts';
import { dayOf } from '../record/timers.ts';
import { Sentence } from '../step/step-view.tsx';
import { LineOrigin, LinePhotos, LineText } from '../step/line-view.tsx';
import './record-table.css';

interface Row {
  readonly about: string;
  readonly line: Line;
}

/** The whole record by steps, struck lines among it; what is printed, whatever is on the screen. */
export function RecordTable() {
  const { run, sheet, placed, lines, waiting } = useRecord();
  const first = lines[0]?.entry.at ?? run.startedAt;
  const written = sheet.steps.filter((step) => rowsOf(linesOfStep(placed, step.id)).length > 0);
  return (
    <section className="bench-record" aria-label="Record">
      <header className="bench-record-head">
        <h1>{sheet.title}</h1>
        <p>
          {run.bench} · {dayOf(first)}
        </p>
      </header>
      {written.map((step) => (
        <section key={step.id} className="bench-record-step">
          <h2>
            <Sentence step={step} />
          </h2>
          <Rows rows={rowsOf(linesOfStep(placed, step.id))} />
        </section>
      ))}
      {placed.elsewhere.length > 0 && (
        <section className="bench-record-step">
          <h2>At no step of this sheet</h2>
          <Rows rows={placed.elsewhere.map((line) => ({ about: aboutText(line.entry), line }))} />
        </section>
      )}
      <footer className="bench-record-foot">
        <p>
          Version {run.versionNumber} of the experiment, document {run.document.slice(0, 12)}.
          {waiting.size > 0 && ` ${waiting.size} of these lines are not sent yet.`}
        </p>
      </footer>
    </section>
  );
}

function rowsOf({ fields, byField, times, others }: StepLines): Row[] {
  const atFields = fields.flatMap((field) =>
    (byField.get(field.key) ?? []).map((line) => ({ about: field.label, line })),
  );
  const rest = [...times, ...others].map((line) => ({ about: aboutText(line.entry), line }));
  return [...atFields, ...rest];
}

function Rows({ rows }: { readonly rows: readonly Row[] }) {
  return (
    <ul>
      {rows.map(({ about, line }) => (
        <li key={line.entry.id}>
          <span className="bench-record-about">{about}</span>
          <span className="bench-record-value">
            <LineText line={line} />
          </span>
          <LineOrigin line={line} />
          <LinePhotos line={line} />
        </li>
      ))}
    </ul>
  );
}
