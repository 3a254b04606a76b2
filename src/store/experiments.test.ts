import { expect, it } from 'vitest';
import { forEachKind } from './testing/kinds.ts';
import { EXPERIMENT, RUN, TEXT } from './testing/pieces.ts';
import { versionOf } from '../core/experiment/version.ts';
import { codeOf, valueOf } from './testing/value-of.ts';

/** A clock that is one minute on each time it is read. */
function clock(): () => string {
  let minute = 0;
  return () => new Date(Date.UTC(2026, 1, 3, 10, minute++)).toISOString();
}

forEachKind('experiments', ({ place }) => {
  const open = async () => (await place()).open({ now: clock() });

  it('come back as they were given, with what their text says of them', async () => {
    const store = await open();
    const opened = valueOf(await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'R. T.'));
    expect(opened).toEqual({
      id: EXPERIMENT,
      title: 'Benzoic acid',
      course: 'Practical Organic Chemistry 1',
      head: {
        number: 1,
        document: await versionOf(TEXT),
        // The clock is asked once for each of the two migrations before
        savedAt: '2026-02-03T10:02:00.000Z',
        savedBy: 'R. T.',
        name: null,
      },
      runs: 0,
      putAway: false,
      text: TEXT,
    });
    const { text: _text, ...summary } = opened;
    expect(await store.experiment(EXPERIMENT)).toEqual(opened);
    expect(await store.experiments()).toEqual([summary]);
    expect(await store.documentText(opened.head.document)).toBe(TEXT);
  });

  it('are kept in the normal form of which the hash is taken', async () => {
    const store = await open();
    const given = '\uFEFF# Ähre \u{1F33E}\r\n\r\nA line.\n\n\n';
    const { text, head } = valueOf(
      await store.addExperiment({ id: EXPERIMENT, text: given }, 'R. T.'),
    );
    expect(text).toBe('# Ähre \u{1F33E}\n\nA line.\n');
    expect(head.document).toBe(await versionOf(given));
    expect(head.document).toBe(await versionOf(text));
  });

  it('take the same once more, and refuse another under the same id', async () => {
    const store = await open();
    const first = await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'R. T.');
    expect(await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'Someone else')).toEqual(
      first,
    );
    const other = await store.addExperiment({ id: EXPERIMENT, text: '# Another' }, 'R. T.');
    expect(codeOf(other)).toBe('experiment-differs');
    expect(await store.experiments()).toHaveLength(1);
  });

  it('are refused where they are no text', async () => {
    const store = await open();
    const answer = await store.addExperiment({ id: EXPERIMENT, text: 'a\u0000b' }, 'R. T.');
    expect(codeOf(answer)).toBe('document-not-text');
    expect(await store.isEmpty()).toBe(true);
  });

  it('stand on the shelf with that which was saved last before the others', async () => {
    const store = await open();
    for (const id of ['experiment-a', 'experiment-b', 'experiment-c'])
      valueOf(await store.addExperiment({ id, text: `# ${id}` }, 'R. T.'));
    valueOf(await store.addVersion('experiment-a', { text: '# more', base: 1 }, 'R. T.'));
    const ids = (await store.experiments()).map(({ id }) => id);
    expect(ids).toEqual(['experiment-a', 'experiment-c', 'experiment-b']);
  });

  it('can be put away and taken back', async () => {
    const store = await open();
    valueOf(await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'R. T.'));
    expect(await store.putAway(EXPERIMENT, true)).toBe(true);
    expect((await store.experiment(EXPERIMENT))?.putAway).toBe(true);
    expect(await store.putAway(EXPERIMENT, false)).toBe(true);
    expect((await store.experiment(EXPERIMENT))?.putAway).toBe(false);
    expect(await store.putAway('no-such-one', true)).toBe(false);
  });
});

forEachKind('versions', ({ place }) => {
  async function begun() {
    const store = await (await place()).open({ now: clock() });
    valueOf(await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'R. T.'));
    return store;
  }

  it('count up from 1 and keep every text', async () => {
    const store = await begun();
    for (const base of [1, 2, 3])
      valueOf(await store.addVersion(EXPERIMENT, { text: `# V${base}`, base }, 'M. O.'));
    const all = await store.versions(EXPERIMENT);
    expect(all.map(({ number }) => number)).toEqual([4, 3, 2, 1]);
    expect(all[0]!.savedBy).toBe('M. O.');
    const texts = await Promise.all([1, 2, 3, 4].map((n) => store.version(EXPERIMENT, n)));
    expect(texts.map((each) => each?.text)).toEqual([TEXT, '# V1\n', '# V2\n', '# V3\n']);
    expect(await store.version(EXPERIMENT, 5)).toBeUndefined();
    expect((await store.experiment(EXPERIMENT))?.head).toEqual(all[0]);
  });

  it('refuse a save on top of an older one, and nothing changes', async () => {
    const store = await begun();
    valueOf(await store.addVersion(EXPERIMENT, { text: '# Mine', base: 1 }, 'M. O.'));
    const late = await store.addVersion(EXPERIMENT, { text: '# Late', base: 1 }, 'R. T.');
    expect(codeOf(late)).toBe('version-moved');
    expect(await store.versions(EXPERIMENT)).toHaveLength(2);
    expect((await store.experiment(EXPERIMENT))?.text).toBe('# Mine\n');
  });

  it('of many saves at once on the same base keep one', async () => {
    const store = await begun();
    const saves = Array.from({ length: 12 }, (_, i) =>
      store.addVersion(EXPERIMENT, { text: `# Save ${i}`, base: 1 }, 'R. T.'),
    );
    const codes = (await Promise.all(saves)).map(codeOf);
    expect(codes.filter((code) => code === 'kept')).toHaveLength(1);
    expect(codes.filter((code) => code === 'version-moved')).toHaveLength(11);
    expect((await store.versions(EXPERIMENT)).map(({ number }) => number)).toEqual([2, 1]);
  });

  it('take a save that is sent again, and no text twice in a row', async () => {
    const store = await begun();
    const save = { text: '# Two', base: 1 };
    const first = await store.addVersion(EXPERIMENT, save, 'R. T.');
    expect(await store.addVersion(EXPERIMENT, save, 'R. T.')).toEqual(first);
    const back = valueOf(await store.addVersion(EXPERIMENT, { text: TEXT, base: 2 }, 'R. T.'));
    expect(back.number).toBe(3);
  });

  it('can be named with the save, afterwards, and not at all', async () => {
    const store = await begun();
    const save = { text: '# Two', base: 1, name: 'Trial in the prep room' };
    expect(valueOf(await store.addVersion(EXPERIMENT, save, 'R. T.')).name).toBe(save.name);
    const again = { text: '# Two', base: 2, name: 'For the class' };
    expect(valueOf(await store.addVersion(EXPERIMENT, again, 'R. T.')).name).toBe(again.name);
    expect(await store.nameVersion(EXPERIMENT, 1, 'First draft')).toBe(true);
    expect(await store.nameVersion(EXPERIMENT, 2, null)).toBe(true);
    expect(await store.nameVersion(EXPERIMENT, 9, 'none')).toBe(false);
    const names = (await store.versions(EXPERIMENT)).map(({ name }) => name);
    expect(names).toEqual([null, 'First draft']);
  });

  it('belong to an experiment that is there', async () => {
    const store = await begun();
    const answer = await store.addVersion('no-such-one', { text: '# Two', base: 1 }, 'R. T.');
    expect(codeOf(answer)).toBe('experiment-unknown');
    expect(await store.versions('no-such-one')).toEqual([]);
  });
});

forEachKind('runs', ({ place }) => {
  async function begun() {
    const store = await (await place()).open({ now: clock() });
    const { head } = valueOf(await store.addExperiment({ id: EXPERIMENT, text: TEXT }, 'R. T.'));
    const given = {
      id: RUN,
      experiment: EXPERIMENT,
      document: head.document,
      bench: 'Bench 4',
    };
    return { store, given };
  }

  it('pin the version that the bench works from', async () => {
    const { store, given } = await begun();
    const run = valueOf(await store.addRun(given));
    expect(run).toMatchObject({ ...given, versionNumber: 1, title: 'Benzoic acid', entries: 0 });
    valueOf(await store.addVersion(EXPERIMENT, { text: '# Another title', base: 1 }, 'R. T.'));
    expect(await store.run(RUN)).toEqual(run);
    expect(await store.runs(EXPERIMENT)).toEqual([run]);
    expect(await store.runs('no-such-one')).toEqual([]);
    expect((await store.experiment(EXPERIMENT))?.runs).toBe(1);
  });

  it('take the same once more, and refuse another under the same id', async () => {
    const { store, given } = await begun();
    const first = await store.addRun(given);
    expect(await store.addRun(given)).toEqual(first);
    expect(codeOf(await store.addRun({ ...given, bench: 'Bench 5' }))).toBe('run-differs');
    expect(await store.runs()).toHaveLength(1);
  });

  it('begin from a version of that experiment only', async () => {
    const { store, given } = await begun();
    const none = { ...given, document: await versionOf('# Never saved') };
    expect(codeOf(await store.addRun(none))).toBe('version-unknown');
    expect(codeOf(await store.addRun({ ...given, experiment: 'no-such-one' }))).toBe(
      'experiment-unknown',
    );
    expect(await store.run(RUN)).toBeUndefined();
  });

  it('have the names of people and benches with any character', async () => {
    const { store, given } = await begun();
    const bench = 'Bänk 3 \u{1F9EA} \u0000\uD800';
    expect(valueOf(await store.addRun({ ...given, bench })).bench).toBe(
      'Bänk 3 \u{1F9EA} \uFFFD\uFFFD',
    );
    expect(valueOf(await store.addRun({ ...given, bench })).id).toBe(RUN);
  });
});
