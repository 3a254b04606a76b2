import type { NetworkInterfaceInfo } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Call } from '../command.ts';
import { servedAddress, shownOrigin } from './address.ts';
import { experimentsIn } from './demonstration.ts';
import { projectFolder } from './project.ts';
import { serveWish } from './serve-wish.ts';
import type { ServeWish } from './serve-wish.ts';
import { storePlace } from './store-place.ts';
import type { Surroundings } from './store-place.ts';

describe('where everything is kept', () => {
  const linux: Surroundings = { env: {}, platform: 'linux', home: '/home/ada' };
  const url = 'postgres://weighboat@localhost/lab';
  const cases: readonly [
    what: string,
    named: string | undefined,
    around: Surroundings,
    place: object,
  ][] = [
    ['nothing said', undefined, linux, { folder: '/home/ada/.local/share/weighboat' }],
    [
      'the data folder of the system',
      undefined,
      { ...linux, env: { XDG_DATA_HOME: '/data' } },
      { folder: '/data/weighboat' },
    ],
    [
      'on a Mac',
      undefined,
      { env: {}, platform: 'darwin', home: '/Users/ada' },
      { folder: '/Users/ada/Library/Application Support/Weighboat' },
    ],
    [
      'on Windows',
      undefined,
      { env: { LOCALAPPDATA: 'C:\\Local' }, platform: 'win32', home: 'C:\\ada' },
      { folder: 'C:\\Local\\Weighboat' },
    ],
    ['a variable', undefined, { ...linux, env: { WEIGHBOAT_FOLDER: 'w' } }, { folder: 'w' }],
    [
      'a database before a variable',
      undefined,
      { ...linux, env: { WEIGHBOAT_FOLDER: 'w', DATABASE_URL: url } },
      { url },
    ],
    ['an option before all', 'x', { ...linux, env: { DATABASE_URL: url } }, { folder: 'x' }],
  ];
  it.each(cases)('%s', (_what, named, around, place) => {
    expect(storePlace(named, around)).toMatchObject(place);
  });
});

describe('what serve is asked for', () => {
  const wish = (options: Call['options']) => serveWish({ options } as Call);

  it('is this machine alone, where nothing is said', () => {
    expect(wish({})).toEqual({
      ok: true,
      wish: { host: '127.0.0.1', port: 7420, origin: null, empty: false },
    });
    expect(wish({ url: 'https://lab.example/', port: '0', empty: true })).toMatchObject({
      wish: { origin: 'https://lab.example', port: 0, empty: true },
    });
  });

  it.each([
    [{ port: '70000' }, '70000 is no port.'],
    [{ port: 'http' }, 'http is no port.'],
    [{ host: 'a b' }, 'a b is no host.'],
    [{ url: 'lab.example' }, 'lab.example is no address that Weighboat can be reached at.'],
    [{ url: 'https://lab.example/weighboat' }, expect.stringContaining('is no address')],
    [{ url: 'ftp://lab.example' }, expect.stringContaining('is no address')],
  ])('%j is refused', (options, message) => {
    expect(wish(options)).toMatchObject({ ok: false, message });
  });
});

describe('the address', () => {
  const wish: ServeWish = { host: '127.0.0.1', port: 7420, origin: null, empty: false };
  const ofLaboratory = {
    lo: [{ address: '127.0.0.1', internal: true, family: 'IPv4' }],
    wlan0: [
      { address: 'fe80::1', internal: false, family: 'IPv6' },
      { address: '192.168.1.20', internal: false, family: 'IPv4' },
    ],
  } as unknown as Record<string, NetworkInterfaceInfo[]>;

  it.each([
    [wish, 'http://127.0.0.1:7420'],
    [{ ...wish, host: '0.0.0.0' }, 'http://192.168.1.20:7420'],
    [{ ...wish, host: '::1' }, 'http://[::1]:7420'],
    [{ ...wish, host: '0.0.0.0', origin: 'https://lab.example' }, 'https://lab.example'],
  ])('that a person opens (%#)', (one, origin) => {
    expect(shownOrigin(one, 7420, ofLaboratory)).toBe(origin);
  });

  it('that is answered to', () => {
    expect(servedAddress(wish)).toEqual({
      hosts: ['127.0.0.1'],
      anyAddress: false,
      origin: null,
      cookieName: 'weighboat-7420',
    });
    const behind = { ...wish, host: '0.0.0.0', origin: 'https://lab.example:8443' };
    expect(servedAddress(behind)).toMatchObject({ hosts: ['lab.example'], anyAddress: true });
    expect(servedAddress({ ...wish, host: '::1' })).toMatchObject({ hosts: ['[::1]'] });
  });
});

describe('the demonstration', () => {
  it('comes from the examples, that which is named first, each with its benches', () => {
    const [first, ...rest] = experimentsIn(join(projectFolder(), 'examples'));
    expect(first!.text).toMatch(/^# 4-Methylcyclohexanol/);
    expect(first!.runs.map(({ bench }) => bench)).toEqual(['Bench 1', 'Bench 2', 'Bench 3']);
    expect(rest.length).toBeGreaterThan(2);
    for (const { text, runs } of rest)
      expect([text.length > 0, runs.length > 0]).toEqual([true, true]);
  });
});
