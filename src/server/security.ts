import type { FastifyHelmetOptions } from '@fastify/helmet';

/** WebAssembly may run: the structure toolkit of a page is one. Nothing is said inline. */
const RULES = {
  'default-src': ["'self'"],
  'script-src': ["'self'", "'wasm-unsafe-eval'"],
  'style-src': ["'self'"],
  'img-src': ["'self'", 'data:', 'blob:'],
  'worker-src': ["'self'"],
  'object-src': ["'none'"],
  'base-uri': ["'none'"],
  'form-action': ["'self'"],
  'frame-ancestors': ["'none'"],
} as const satisfies Readonly<Record<string, readonly string[]>>;

const textOf = (rules: Readonly<Record<string, readonly string[]>>): string =>
  Object.entries(rules)
    .map(([name, sources]) => `${name} ${sources.join(' ')}`)
    .join('; ');

/**
 * Of a page: libraries that make style sheets as they run (the editor does) mark them with the
 * nonce, which they find in `<meta property="csp-nonce">`.
 */
export const pagePolicy = (nonce: string): string =>
  textOf({ ...RULES, 'style-src': ["'self'", `'nonce-${nonce}'`] });

/** Of a file that somebody sent: shown as a picture, it can do nothing else. */
export const SANDBOXED = "default-src 'none'; style-src 'unsafe-inline'; sandbox";

/** The headers of every answer. HTTPS is the matter of the proxy that makes it. */
export const HEADERS: FastifyHelmetOptions = {
  contentSecurityPolicy: {
    useDefaults: false,
    directives: Object.fromEntries(
      Object.entries(RULES).map(([name, sources]) => [name, [...sources]]),
    ),
  },
  referrerPolicy: { policy: 'no-referrer' },
  strictTransportSecurity: false,
  xFrameOptions: { action: 'deny' },
  // Over plain HTTP in a laboratory's network a browser ignores it and says so on every page.
  crossOriginOpenerPolicy: false,
  originAgentCluster: false,
};
