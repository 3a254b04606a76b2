import { addressOf } from '../device/view.ts';
import { useRecord } from '../record-context.ts';
import { missingIn } from '../record/missing.ts';
import { planText } from '../step/typed-field.ts';

/** What the sheet asks for and nobody entered, each a way to its step. */
export function NotEntered() {
  const { sheet, placed, lines, settings } = useRecord();
  const missing = missingIn(sheet, placed);
  if (lines.length === 0 || missing.length === 0) return null;
  return (
    <section className="bench-record-step bench-record-missing">
      <h2>Not entered</h2>
      <ul>
        {missing.map(({ step, field }) => (
          <li key={field.key}>
            <a href={addressOf({ kind: 'step', step: step.id })}>
              Step {step.id}: {field.label}
            </a>
            <span className="bench-record-value quiet">
              {planText(field, settings.decimalSign)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
