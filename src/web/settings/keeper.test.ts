import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Settings } from '../../wire/settings.ts';
import { Refused } from '../api/request.ts';
import type { Form } from './form.ts';
import { settingsKeeper } from './keeper.ts';
import type { SettingsState } from './keeper.ts';

const EMPTY: Settings = {
  decimalSign: '.',
  terms: 'uk',
  paper: 'a4',
  balances: [],
  glassware: [],
};

/** A laboratory with one server and the storage of one device. */
function laboratory() {
  const storage = new Map<string, string>();
  const server = { kept: EMPTY, down: false, writes: 0 };
  const reach = () => {
    if (server.down) throw new Refused(0, { code: 'no-network', message: 'Not reached.' });
  };
  const states: SettingsState[] = [];
  const open = () =>
    settingsKeeper(server.kept, {
      read: async () => {
        reach();
        return server.kept;
      },
      write: async (settings) => {
        reach();
        server.writes += 1;
        server.kept = settings;
      },
      storage: {
        getItem: (key) => storage.get(key) ?? null,
        setItem: (key, value) => void storage.set(key, value),
        removeItem: (key) => void storage.delete(key),
      },
      changed: (state) => states.push(state),
    });
  return { server, storage, states, open };
}

const GLASS = { id: 'g1', name: 'pipette', figures: { volume_mL: '25', tolerance_mL: '0,03' } };

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

describe('settings kept without being asked', () => {
  it('are sent once after a pause, and the draft is gone', async () => {
    const { server, storage, states, open } = laboratory();
    const keeper = open();
    keeper.change({ ...keeper.state().form, paper: 'letter' });
    keeper.change({ ...keeper.state().form, glassware: [GLASS] });
    expect(storage.size).toBe(1);
    await vi.advanceTimersByTimeAsync(600);
    expect(server.writes).toBe(1);
    expect(server.kept).toMatchObject({
      paper: 'letter',
      glassware: [{ id: 'g1', volume_mL: 25, tolerance_mL: 0.03 }],
    });
    expect(states.at(-1)!.keeping.kind).toBe('kept');
    expect(storage.size).toBe(0);
  });

  it('survive a lost network and a reload', async () => {
    const { server, open, storage } = laboratory();
    server.down = true;
    const first = open();
    first.change({ ...first.state().form, glassware: [GLASS], paper: 'letter' });
    await vi.advanceTimersByTimeAsync(600);
    expect(first.state().keeping.kind).toBe('no-network');
    // Another device changes something else meanwhile.
    server.kept = { ...EMPTY, terms: 'us' };
    const second = open();
    expect(second.hasDraft).toBe(true);
    expect(second.state().form).toMatchObject({ paper: 'letter', terms: 'us' });
    server.down = false;
    await second.keepNow();
    expect(server.kept).toMatchObject({ paper: 'letter', terms: 'us', glassware: [{ id: 'g1' }] });
    expect(storage.size).toBe(0);
  });

  it('are tried again by themselves when the network is back', async () => {
    const { server, open } = laboratory();
    server.down = true;
    const keeper = open();
    keeper.change({ ...keeper.state().form, decimalSign: ',' });
    await vi.advanceTimersByTimeAsync(600);
    server.down = false;
    await vi.advanceTimersByTimeAsync(6_000);
    expect(server.kept.decimalSign).toBe(',');
    expect(keeper.state().keeping.kind).toBe('kept');
  });

  it('hold a row that is not whole on this device, as it was typed', async () => {
    const { server, storage, open } = laboratory();
    const half = { id: 'b1', name: 'By the door', figures: { readability_g: 'one milligram' } };
    const keeper = open();
    keeper.change({ ...keeper.state().form, balances: [half], paper: 'letter' });
    await vi.advanceTimersByTimeAsync(600);
    expect(server.kept).toEqual({ ...EMPTY, paper: 'letter' });
    expect(storage.size).toBe(1);
    expect(open().state().form.balances).toEqual([half]);
  });

  it('show what someone else added, once they are sent', async () => {
    const { server, open } = laboratory();
    const keeper = open();
    const other = { id: 'g2', name: 'burette', volume_mL: 50, tolerance_mL: 0.05 };
    server.kept = { ...EMPTY, glassware: [other] };
    keeper.change({ ...keeper.state().form, paper: 'letter' });
    await vi.advanceTimersByTimeAsync(600);
    expect(server.kept).toMatchObject({ paper: 'letter', glassware: [other] });
    expect(keeper.state().form.glassware.map(({ name }) => name)).toEqual(['burette']);
  });

  it('go on with what was typed while the last was on its way', async () => {
    const { server, open } = laboratory();
    const keeper = open();
    keeper.change({ ...keeper.state().form, paper: 'letter' });
    const sending = keeper.keepNow();
    const typed: Form = { ...keeper.state().form, glassware: [GLASS] };
    keeper.change(typed);
    await sending;
    await vi.advanceTimersByTimeAsync(1_200);
    expect(server.kept.glassware).toHaveLength(1);
    expect(keeper.state().form).toBe(typed);
  });

  it('are not lost when the page is left at once', async () => {
    const { server, open } = laboratory();
    const keeper = open();
    keeper.change({ ...keeper.state().form, paper: 'letter' });
    keeper.stop();
    await vi.advanceTimersByTimeAsync(0);
    expect(server.kept.paper).toBe('letter');
  });
});
