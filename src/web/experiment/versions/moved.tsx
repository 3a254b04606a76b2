import { Link } from 'react-router';
import { Button } from '../../ui/button.tsx';
import type { Keeping } from '../keep/keeping.ts';
import { whenText } from '../../ui/when.ts';

/** Someone saved another version meanwhile: both are there, and the person says how to go on. */
export function Moved({
  experiment,
  base,
  moved: { theirs },
  onMine,
  onTheirs,
}: {
  readonly experiment: string;
  readonly base: number;
  readonly moved: Extract<Keeping, { readonly kind: 'moved' }>;
  readonly onMine: () => void;
  readonly onTheirs: () => void;
}) {
  const { number, savedBy, savedAt } = theirs.head;
  return (
    <section className="experiment-moved" role="status" aria-label="Another version">
      <p>
        <strong>
          {savedBy} saved version {number} {whenText(savedAt)}, while you were writing.
        </strong>{' '}
        Your text is kept on this device; nothing of either is lost.
      </p>
      <div className="row-of-buttons">
        <Link
          className="button"
          to={`/experiments/${experiment}/compare?from=${base}&to=${number}`}
          target="_blank"
        >
          See what they changed
        </Link>
        <Button onClick={onMine}>Keep mine as version {number + 1}</Button>
        <Button onClick={onTheirs}>Go on from theirs</Button>
      </div>
      <p className="quiet">If you go on from theirs, undo in the text brings yours back.</p>
    </section>
  );
}
