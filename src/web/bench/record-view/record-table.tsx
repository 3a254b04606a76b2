import { useRecord } from '../record-context.ts';
import { aboutText } from '../record/entry-text.ts';
import { linesOfStep } from '../record/place.ts';
import type { StepLines } from '../record/place.ts';
import type { Line } from '../record/standing.ts';
import { dayOf } from '../record/timers.ts';
import type { BenchField } from '../sheet.ts';
import { Sentence } from '../step/step-view.tsx';
import { stands } from '../step/field-kinds.ts';
import { LineOrigin, LinePhotos, LineText } from '../step/line-view.tsx';
import { saidOf } from '../step/what-is-said.ts';
import { NotEntered } from './not-entered.tsx';
import './record-table.css';

interface Row {
  readonly about: string;
  readonly line: Line;
  /** What is doubtful in it, said at the last line of its field. */
  readonly doubt?: string;
}

/** The whole record by steps, struck lines among it; what is printed, whatever is on the screen. */
export function RecordTable() {
  const { run, sheet, placed, lines, waiting, settings } = useRecord();
  const rowsAt = (step: string) =>
    rowsOf(
      linesOfStep(placed, step),
      (field, own) => saidOf(field, own, lines, settings.decimalSign).doubt,
    );
  const first = lines[0]?.entry.at ?? run.startedAt;
  const measured = placed.elsewhere.filter(({ entry }) => entry.evidence !== undefined);
  const elsewhere = placed.elsewhere.filter(({ entry }) => entry.evidence === undefined);
  const written = sheet.steps.filter((step) => rowsAt(step.id).length > 0);
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
          <Rows rows={rowsAt(step.id)} />
        </section>
      ))}
      {measured.length > 0 && (
        <section className="bench-record-step">
          <h2>Evidence</h2>
          <Rows rows={measured.map((line) => ({ about: aboutText(line.entry), line }))} />
        </section>
      )}
      {elsewhere.length > 0 && (
        <section className="bench-record-step">
          <h2>At no step of this sheet</h2>
          <Rows rows={elsewhere.map((line) => ({ about: aboutText(line.entry), line }))} />
        </section>
      )}
      <NotEntered />
      <footer className="bench-record-foot">
        <p>
          Version {run.versionNumber} of the experiment, document {run.document.slice(0, 12)}.
          {waiting.size > 0 && ` ${waiting.size} of these lines are not sent yet.`}
        </p>
      </footer>
    </section>
  );
}

type DoubtIn = (field: BenchField, lines: readonly Line[]) => string | undefined;

function rowsOf({ fields, byField, times, others }: StepLines, doubtIn: DoubtIn): Row[] {
  const atFields = fields.flatMap((field): Row[] => {
    const own = byField.get(field.key) ?? [];
    const doubt = doubtIn(field, own);
    const last = own.findLast(stands);
    return own.map((line) => ({
      about: field.label,
      line,
      ...(line === last && doubt !== undefined && { doubt }),
    }));
  });
  const rest = [...times, ...others].map((line) => ({ about: aboutText(line.entry), line }));
  return [...atFields, ...rest];
}

function Rows({ rows }: { readonly rows: readonly Row[] }) {
  return (
    <ul>
      {rows.map(({ about, line, doubt }) => (
        <li key={line.entry.id}>
          <span className="bench-record-about">{about}</span>
          <span className="bench-record-value">
            <LineText line={line} />
          </span>
          {doubt !== undefined && <span className="bench-record-doubt">{doubt}</span>}
          <LineOrigin line={line} />
          <LinePhotos line={line} />
        </li>
      ))}
    </ul>
  );
}
