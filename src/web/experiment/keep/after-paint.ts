import type { Keeper } from './keeper.ts';

/**
 * The same keeper, told of a change once the frame that shows it is painted, so that writing to the
 * device is no part of a keystroke. Whatever else is asked of it comes after what was typed; `flush`
 * tells it at once, for a page that is being left.
 */
export interface LateKeeper extends Keeper {
  readonly flush: () => void;
}

export function afterPaint(keeper: Keeper, painted: (then: () => void) => void): LateKeeper {
  let waiting: { readonly text: string; readonly cursor: number } | undefined;
  const flush = () => {
    if (waiting === undefined) return;
    const { text, cursor } = waiting;
    waiting = undefined;
    keeper.changed(text, cursor);
  };
  const after =
    <A extends readonly unknown[], T>(deed: (...given: A) => T) =>
    (...given: A): T => {
      flush();
      return deed(...given);
    };
  return {
    ...keeper,
    flush,
    changed(text, cursor) {
      const asked = waiting !== undefined;
      waiting = { text, cursor };
      if (!asked) painted(flush);
    },
    sendNow: after(keeper.sendNow),
    settled: after(keeper.settled),
    keepMine: after(keeper.keepMine),
    takeTheirs: after(keeper.takeTheirs),
    renamed: after(keeper.renamed),
    stop: after(keeper.stop),
  };
}
