import { useState } from 'react';
import { Link } from 'react-router';
import type { ExperimentSummary } from '../../wire/experiment.ts';
import { unbroken, withDecimal } from '../words/decimal.ts';
import { useDocumentAnswer, useSettings } from '../api/queries.ts';
import { Button } from '../ui/button.tsx';
import { whenText } from '../ui/when.ts';
import { BenchRecords } from './bench-records.tsx';
import { recordsText } from './order.ts';
import { titleOf } from './use-shelf.ts';
import type { ShelfDeeds } from './use-shelf.ts';

/** An experiment: its title in large, which version it is at, and what one can do with it. */
export function ShelfRow({
  experiment,
  deeds,
}: {
  readonly experiment: ExperimentSummary;
  readonly deeds: ShelfDeeds;
}) {
  const [open, setOpen] = useState(false);
  const { id, course, head, runs, putAway } = experiment;
  const title = titleOf(experiment);
  const answer = useDocumentAnswer(head.document).data?.matter[0];
  const decimal = useSettings().data?.decimalSign ?? '.';
  const records = `records-${id}`;
  return (
    <li className="shelf-row">
      <div>
        <h2>
          <Link to={`/experiments/${id}`}>{title}</Link>
        </h2>
        {answer !== undefined && (
          <p className="shelf-answer">{unbroken(withDecimal(answer, decimal))}</p>
        )}
        {course !== null && <p className="shelf-course">{course}</p>}
      </div>
      <p className="shelf-version">
        Version {head.number}
        {head.name !== null && <>, “{head.name}”</>}, <span>saved {whenText(head.savedAt)}</span>
      </p>
      <div className="shelf-deeds">
        <Button
          rank="plain"
          aria-expanded={open}
          aria-controls={records}
          onClick={() => setOpen(!open)}
        >
          {recordsText(runs)} <span className="spoken">of {title}</span>
        </Button>
        <Button rank="plain" onClick={() => void deeds.copy(experiment)}>
          Copy <span className="spoken">{title}</span>
        </Button>
        <Button rank="plain" onClick={() => void deeds.putAway(experiment, !putAway)}>
          {putAway ? 'Bring back' : 'Put away'} <span className="spoken">{title}</span>
        </Button>
      </div>
      <div id={records} hidden={!open} className="shelf-below">
        {open && <BenchRecords experiment={experiment} />}
      </div>
    </li>
  );
}
