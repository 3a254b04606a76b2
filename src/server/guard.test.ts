import { describe, expect, it } from 'vitest';
import type { ServedAddress } from './app.ts';
import { hostName, isInterface, isOwnHost, isOwnPage } from './guard.ts';

const HERE: ServedAddress = {
  hosts: ['localhost', '127.0.0.1', '[::1]'],
  anyAddress: false,
  origin: null,
  cookieName: 'weighboat',
};
const EVERYWHERE = { ...HERE, anyAddress: true };
const BEHIND = { ...HERE, hosts: [...HERE.hosts, 'lab.example'], origin: 'https://lab.example' };

describe('the host that a request names', () => {
  it.each([
    ['127.0.0.1:7420', '127.0.0.1'],
    ['LocalHost', 'localhost'],
    ['[::1]:7420', '[::1]'],
    ['', ''],
  ])('%s is %s', (host, name) => {
    expect(hostName(host)).toBe(name);
  });

  const cases: readonly [host: string | undefined, address: ServedAddress, own: boolean][] = [
    ['127.0.0.1:7420', HERE, true],
    ['[::1]:7420', HERE, true],
    ['localhost', HERE, true],
    ['rebound.example:7420', HERE, false],
    ['127.0.0.1.rebound.example', HERE, false],
    ['192.168.1.20:7420', HERE, false],
    [undefined, HERE, false],
    ['192.168.1.20:7420', EVERYWHERE, true],
    ['[fe80::1]:7420', EVERYWHERE, true],
    ['rebound.example:7420', EVERYWHERE, false],
    ['lab.example', BEHIND, true],
  ];
  it.each(cases)('%s', (host, address, own) => {
    expect(isOwnHost(host, address)).toBe(own);
  });
});

describe('the page that a request comes from', () => {
  const host = '127.0.0.1:7420';
  const cases: readonly [
    what: string,
    method: string,
    headers: Readonly<Record<string, string>>,
    own: boolean,
  ][] = [
    ['reading from anywhere', 'GET', { host, 'sec-fetch-site': 'cross-site' }, true],
    ['a page of ours', 'POST', { host, 'sec-fetch-site': 'same-origin' }, true],
    ['another port of this machine', 'POST', { host, 'sec-fetch-site': 'same-site' }, false],
    ['a page of elsewhere', 'POST', { host, 'sec-fetch-site': 'cross-site' }, false],
    [
      'a page of elsewhere that gives our origin',
      'PUT',
      { host, 'sec-fetch-site': 'cross-site', origin: `http://${host}` },
      false,
    ],
    ['an older browser, ours', 'PATCH', { host, origin: `http://${host}` }, true],
    ['an older browser, elsewhere', 'DELETE', { host, origin: 'http://127.0.0.1:80' }, false],
    ['a page without an origin', 'POST', { host, origin: 'null' }, false],
    ['nothing said', 'POST', { host }, false],
  ];
  it.each(cases)('%s', (_what, method, headers, own) => {
    expect(isOwnPage(method, headers, HERE)).toBe(own);
  });

  it('is ours behind a proxy that calls us by another name', () => {
    expect(isOwnPage('POST', { host, origin: 'https://lab.example' }, BEHIND)).toBe(true);
    expect(isOwnPage('POST', { host, origin: 'https://lab.example' }, HERE)).toBe(false);
  });
});

it.each([
  ['/api', true],
  ['/api/runs?x=1', true],
  ['/api?x', true],
  ['/apiary', false],
  ['/experiments/api', false],
])('%s belongs to the interface: %s', (url, is) => {
  expect(isInterface(url)).toBe(is);
});
