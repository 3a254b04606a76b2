import { useRecord } from '../record-context.ts';
import type { Line } from '../record/standing.ts';
import type { BenchField } from '../sheet.ts';
import { saidOf } from './what-is-said.ts';

/** What the number of a field says, behind it. */
export function SaidOf({
  field,
  lines,
}: {
  readonly field: BenchField;
  readonly lines: readonly Line[];
}) {
  const { lines: all, settings } = useRecord();
  const { net, change, doubt } = saidOf(field, lines, all, settings.decimalSign);
  const quiet = [net, change].filter((word) => word !== undefined).join(' ');
  return (
    <>
      {quiet !== '' && <p className="bench-said">{quiet}</p>}
      {doubt !== undefined && (
        <p className="bench-said" data-doubt="true">
          {doubt}
        </p>
      )}
    </>
  );
}
