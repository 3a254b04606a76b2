import type { Severity } from '../../../core/diagnostic.ts';
import { Button } from '../../ui/button.tsx';
import type { Desk } from '../desk.ts';
import { useSettled } from '../use-settled.ts';
import { useScene } from '../use-scene.ts';
import { useWords } from '../../words/use-words.ts';
import { findingsHere, fixOf } from './fixes.ts';

const PAUSE_ms = 700;

const WORD: Readonly<Record<Severity, string>> = { error: 'Mend', warning: 'Check', note: 'Note' };

/** What is to be said of the line that the cursor stands in, with the one key that mends it. */
export function LineFindings({ desk }: { readonly desk: Desk }) {
  const { enacted } = useScene(desk);
  const { said } = useWords();
  // A word that is half typed is not wrong yet.
  const paused = useSettled(enacted.text, PAUSE_ms);
  const [first, ...more] = paused ? findingsHere(desk.state()) : [];
  const mending = first === undefined ? undefined : fixOf(desk.state(), first);
  return (
    <div className="experiment-line-findings" data-severity={first?.severity}>
      <p role="status">
        {first !== undefined && (
          <>
            <strong>{WORD[first.severity]}</strong> {said(first.message)}{' '}
            <span className="quiet">
              {first.hint !== undefined && said(first.hint)}
              {more.length > 0 && ` And ${more.length} more in this line.`}
            </span>
          </>
        )}
      </p>
      {mending !== undefined && (
        <Button onClick={() => desk.edit(mending)}>
          Write “{first!.fix}” <kbd>Alt+Enter</kbd>
        </Button>
      )}
    </div>
  );
}
