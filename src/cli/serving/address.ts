import { isIPv6 } from 'node:net';
import type { NetworkInterfaceInfo } from 'node:os';
import type { ServedAddress } from '../../server/app.ts';
import type { ServeWish } from './serve-wish.ts';

type Interfaces = Readonly<Record<string, readonly NetworkInterfaceInfo[] | undefined>>;

const EVERYWHERE: ReadonlySet<string> = new Set(['0.0.0.0', '::']);

const inBrackets = (host: string): string => (isIPv6(host) ? `[${host}]` : host.toLowerCase());

/** The first address that another machine can call this one by. */
function outerAddress(interfaces: Interfaces): string | undefined {
  return Object.values(interfaces)
    .flatMap((list) => list ?? [])
    .find(({ internal, family }) => !internal && family === 'IPv4')?.address;
}

/** Where a person opens it. On every interface: by an address that a phone reaches as well. */
export function shownOrigin(wish: ServeWish, port: number, interfaces: Interfaces): string {
  if (wish.origin !== null) return wish.origin;
  const host = EVERYWHERE.has(wish.host) ? (outerAddress(interfaces) ?? '127.0.0.1') : wish.host;
  return `http://${inBrackets(host)}:${port}`;
}

/** The names that the server answers to. */
export function servedAddress({ host, port, origin }: ServeWish): ServedAddress {
  const everywhere = EVERYWHERE.has(host);
  return {
    hosts: [
      ...(everywhere ? [] : [inBrackets(host)]),
      ...(origin === null ? [] : [new URL(origin).hostname]),
    ],
    anyAddress: everywhere,
    origin,
    // Cookies know no ports: two Weighboats on one machine would sign each other out.
    cookieName: port === 0 ? 'weighboat' : `weighboat-${port}`,
  };
}
