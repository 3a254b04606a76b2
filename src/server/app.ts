import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Store } from '../store/store.ts';
import type { StructureKit } from '../structures/port.ts';
import type { Access, SignedIn } from './guard.ts';

export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What the routes work with. Nothing here belongs to the process: a test gives its own. */
export interface ServerContext {
  readonly store: Store;
  /** Loaded when the first drawing is asked for. */
  readonly structures: () => Promise<StructureKit>;
  /** The built pages; null serves the interface alone. */
  readonly webFolder: string | null;
  /** ms since 1970. */
  readonly clock: () => number;
  readonly address: ServedAddress;
  readonly heartbeat_ms: number;
  /** Told of every fault that is ours. */
  readonly onFault: (error: unknown) => void;
}

/** Under which names the server lets itself be called. */
export interface ServedAddress {
  /** Host names and addresses, without a port. */
  readonly hosts: readonly string[];
  /** It listens on every interface: any literal address will do, but no further name. */
  readonly anyAddress: boolean;
  /** The origin under which others reach it, where a proxy stands before it. */
  readonly origin: string | null;
  readonly cookieName: string;
}

declare module 'fastify' {
  interface FastifyRequest {
    /** Set by the guard before any handler that asks for a session. */
    signedIn: SignedIn | null;
  }
  interface FastifyContextConfig {
    access?: Access;
  }
}

/** ISO 8601, so many ms from now. */
export const instantAfter = ({ clock }: ServerContext, life_ms = 0): string =>
  new Date(clock() + life_ms).toISOString();
