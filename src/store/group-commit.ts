interface Waiting<Call, Answer> {
  readonly call: Call;
  readonly answer: (answer: Answer) => void;
  readonly fail: (error: unknown) => void;
}

export interface GroupCommit<Call, Answer> {
  add(call: Call): Promise<Answer>;
  /** Resolves when all that was added has its answer. */
  idle(): Promise<void>;
}

/**
 * Calls that come together share one commit: while one runs, those that arrive wait and make up the
 * next. `commit` takes at most what weighs `most` (one call at least) and answers each in its order.
 * Where a shared commit fails, each of its calls is tried alone, so that one cannot spoil the others;
 * where trying again is hopeless, all of them fail at once and nobody waits for so many more failures.
 */
export function groupCommit<Call, Answer>(
  commit: (calls: readonly Call[]) => Promise<readonly Answer[]>,
  weightOf: (call: Call) => number,
  most: number,
  isHopeless: (error: unknown) => boolean = () => false,
): GroupCommit<Call, Answer> {
  let queue: Waiting<Call, Answer>[] = [];
  let running: Promise<void> | undefined;

  function next(): Waiting<Call, Answer>[] {
    let weight = 0;
    const end = queue.findIndex(({ call }, i) => (weight += weightOf(call)) > most && i > 0);
    const group = end < 0 ? queue : queue.slice(0, end);
    queue = end < 0 ? [] : queue.slice(end);
    return group;
  }

  async function settle(group: readonly Waiting<Call, Answer>[]): Promise<void> {
    try {
      const answers = await commit(group.map(({ call }) => call));
      group.forEach((each, i) => each.answer(answers[i]!));
    } catch (error) {
      if (group.length === 1 || isHopeless(error)) for (const each of group) each.fail(error);
      else for (const each of group) await settle([each]);
    }
  }

  async function run(): Promise<void> {
    while (queue.length > 0) {
      // Lets everything that has arrived with this turn of the event loop come along.
      await new Promise((resolve) => setImmediate(resolve));
      await settle(next());
    }
    running = undefined;
  }

  return {
    add: (call) =>
      new Promise((answer, fail) => {
        queue.push({ call, answer, fail });
        running ??= run();
      }),
    idle: async () => running,
  };
}
