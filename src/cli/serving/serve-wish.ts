import { optionText } from '../command.ts';
import type { Call } from '../command.ts';

/** What `serve` was asked for. */
export interface ServeWish {
  readonly host: string;
  readonly port: number;
  /** The origin under which others reach it; null where it is the address itself. */
  readonly origin: string | null;
  /** Without the demonstration course. */
  readonly empty: boolean;
}

export type Wish =
  | { readonly ok: true; readonly wish: ServeWish }
  | { readonly ok: false; readonly message: string; readonly hint: string };

export const DEFAULT_HOST = '127.0.0.1';
export const DEFAULT_PORT = 7420;

const no = (message: string, hint: string): Wish => ({ ok: false, message, hint });

/** An origin without a path: a page of Weighboat stands at the root of its host. */
function originOf(text: string): string | undefined {
  if (!URL.canParse(text)) return undefined;
  const url = new URL(text);
  const bare = url.pathname === '/' && url.search === '' && url.hash === '';
  return /^https?:$/.test(url.protocol) && bare ? url.origin : undefined;
}

export function serveWish(call: Call): Wish {
  const port = optionText(call, 'port') ?? String(DEFAULT_PORT);
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535)
    return no(
      `${port} is no port.`,
      `A port is a whole number up to 65535: --port ${DEFAULT_PORT}`,
    );
  const host = optionText(call, 'host') ?? DEFAULT_HOST;
  if (!/^[\w.:-]+$/.test(host))
    return no(
      `${host} is no host.`,
      'Write an address of this machine, or 0.0.0.0 for all of them: --host 0.0.0.0',
    );
  const url = optionText(call, 'url');
  const origin = url === undefined ? null : originOf(url);
  if (origin === undefined)
    return no(
      `${url} is no address that Weighboat can be reached at.`,
      'Write it with its scheme and without a path: --url https://weighboat.example.org',
    );
  return {
    ok: true,
    wish: { host, port: Number(port), origin, empty: call.options['empty'] === true },
  };
}
