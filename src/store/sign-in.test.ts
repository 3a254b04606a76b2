import { expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../wire/settings.ts';
import { forEachKind } from './testing/kinds.ts';
import { begin, RUN } from './testing/pieces.ts';

const PERSON = { id: 'person-1', name: 'R. Tamsin' };
const NOON = '2026-02-03T12:00:00.000Z';
const ONE = '2026-02-03T13:00:00.000Z';

forEachKind('sign-in', ({ place }) => {
  async function begun() {
    const store = await (await place()).open({ now: () => NOON });
    await store.addPerson(PERSON);
    await begin(store);
    return store;
  }
  const link = { tokenHash: 'hash-1', person: PERSON.id, role: 'bench', expiresAt: ONE } as const;

  it('by a link happens once', async () => {
    const store = await begun();
    await store.addLink({ ...link, run: RUN });
    expect(await store.useLink('hash-1', NOON)).toEqual({
      person: PERSON,
      role: 'bench',
      run: RUN,
    });
    expect(await store.useLink('hash-1', NOON)).toBeUndefined();
  });

  it('by a link that several try at once happens once', async () => {
    const store = await begun();
    await store.addLink({ ...link, run: null });
    const tries = await Promise.all(Array.from({ length: 8 }, () => store.useLink('hash-1', NOON)));
    expect(tries.filter((session) => session !== undefined)).toHaveLength(1);
  });

  it('by a link ends when its time has come, however that is written', async () => {
    const store = await begun();
    await store.addLink({ ...link, run: null, expiresAt: '2026-02-03T13:00:00Z' });
    expect(await store.useLink('hash-1', ONE)).toBeUndefined();
    expect(await store.useLink('hash-1', NOON)).toBeUndefined();
    expect(await store.useLink('never-made', NOON)).toBeUndefined();
  });

  it('lasts until the session ends, by its time or by the person', async () => {
    const store = await begun();
    const session = { person: PERSON, role: 'instructor', run: null } as const;
    await store.addSession({ tokenHash: 'hash-2', session, expiresAt: ONE });
    expect(await store.session('hash-2', '2026-02-03T12:59:59Z')).toEqual(session);
    expect(await store.session('hash-2', ONE)).toBeUndefined();
    expect(await store.session('hash-3', NOON)).toBeUndefined();
    await store.addPerson({ ...PERSON, name: 'R. Tamsin-Rowe' });
    expect((await store.session('hash-2', NOON))?.person.name).toBe('R. Tamsin-Rowe');
    await store.endSession('hash-2');
    expect(await store.session('hash-2', NOON)).toBeUndefined();
  });
});

forEachKind('settings', ({ place }) => {
  it('are the defaults until they are set, and the last ones then', async () => {
    const where = await place();
    const store = await where.open();
    expect(await store.settings()).toEqual(DEFAULT_SETTINGS);
    await store.setSettings({ ...DEFAULT_SETTINGS, terms: 'us' });
    const given = { ...DEFAULT_SETTINGS, decimalSign: ',', paper: 'letter' } as const;
    await store.setSettings(given);
    await store.close();
    const again = await where.open();
    expect(await again.settings()).toEqual(given);
    expect(await again.isEmpty()).toBe(true);
  });
});
