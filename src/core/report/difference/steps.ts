import type { Alignment } from './align.ts';
import type { Side } from './side.ts';
import { wordRuns } from './words.ts';
import type { WordRun } from './words.ts';

/** A sentence of the procedure that came, went, changed or stands elsewhere. */
export interface StepChange {
  readonly kind: 'added' | 'removed' | 'moved' | 'changed';
  readonly stepBefore: string | null;
  readonly stepAfter: string | null;
  readonly before: string | null;
  readonly after: string | null;
  /** Word by word, where both are there and differ. */
  readonly words: readonly WordRun[];
  /** Its place among the sentences: of the newer version, or of the older where it went. */
  readonly place: number;
  readonly sentence: string;
}

/** In the order of the newer version; what went stands where it was. */
export function stepChanges(before: Side, after: Side, alignment: Alignment): StepChange[] {
  const changes: (StepChange & { readonly order: number })[] = [];
  alignment.pairs.forEach((pair, k) => {
    const old = before.sentences[pair.before]!;
    const now = after.sentences[pair.after]!;
    const moved = alignment.moved.has(k);
    const differs = old.text !== now.text;
    if (!moved && !differs) return;
    const stepBefore = old.steps[0]!.id;
    const stepAfter = now.steps[0]!.id;
    changes.push({
      kind: moved ? 'moved' : 'changed',
      stepBefore,
      stepAfter,
      before: old.text,
      after: now.text,
      words: differs ? wordRuns(old.text, now.text) : [],
      place: pair.after,
      order: pair.after,
      sentence: moved
        ? `Step ${stepBefore} now stands as step ${stepAfter}${differs ? ', changed' : ''}: ${now.text}`
        : `Step ${stepAfter}: ${old.text} → ${now.text}`,
    });
  });
  for (const place of alignment.added) {
    const { text, steps } = after.sentences[place]!;
    const id = steps[0]!.id;
    const none = { stepBefore: null, before: null, words: [] };
    const sentence = `New step ${id}: ${text}`;
    changes.push({
      kind: 'added',
      ...none,
      stepAfter: id,
      after: text,
      place,
      order: place,
      sentence,
    });
  }
  for (const place of alignment.removed) {
    const { text, steps } = before.sentences[place]!;
    const id = steps[0]!.id;
    const none = { stepAfter: null, after: null, words: [] };
    const sentence = `Step ${id} is gone: ${text}`;
    const order = orderOfRemoved(place, alignment);
    changes.push({
      kind: 'removed',
      ...none,
      stepBefore: id,
      before: text,
      place,
      order,
      sentence,
    });
  }
  return changes.sort((a, b) => a.order - b.order).map(({ order: _order, ...change }) => change);
}

/** Just behind the sentence that stood before it. */
function orderOfRemoved(place: number, { pairs }: Alignment): number {
  const former = pairs.filter((pair) => pair.before < place);
  const last = former.reduce<Alignment['pairs'][number] | undefined>(
    (top, pair) => (top === undefined || pair.before > top.before ? pair : top),
    undefined,
  );
  return (last?.after ?? -1) + 0.5;
}
