import type { Refusal } from '../../wire/common.ts';

/** A refusal of the server, or of the way to it (code "no-network"). */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly refusal: Refusal,
  ) {
    super(refusal.message);
  }
}

const NO_NETWORK: Refusal = {
  code: 'no-network',
  message: 'Weighboat cannot be reached.',
  hint: 'Is it still running, and is there a network? What you wrote is kept on this device.',
};

interface Asked {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Sent as JSON; a Blob as the bytes that it is. */
  readonly body?: unknown;
  readonly signal?: AbortSignal;
  /** Lives on when the page is left. The browser takes 64 kB at most so; more goes the usual way. */
  readonly keepalive?: boolean;
}

const MOST_KEPT_ALIVE = 60_000;

/** Asks the server; throws only `Refused`. The caller names the wire type of the answer. */
export async function request<T>(path: string, asked: Asked = {}): Promise<T> {
  const { method = 'GET', body, signal, keepalive = false } = asked;
  const sent = body === undefined || body instanceof Blob ? body : JSON.stringify(body);
  let answer: Response;
  try {
    answer = await fetch(path, {
      method,
      credentials: 'same-origin',
      ...(signal && { signal }),
      ...(keepalive && isShort(sent) && { keepalive }),
      ...(sent !== undefined && {
        body: sent,
        headers: { 'content-type': sent instanceof Blob ? sent.type : 'application/json' },
      }),
    });
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new Refused(0, NO_NETWORK);
  }
  if (!answer.ok) throw new Refused(answer.status, await refusalOf(answer));
  return (answer.status === 204 ? undefined : await answer.json()) as T;
}

/** A character may take three bytes. */
const isShort = (sent: string | Blob | undefined): boolean =>
  typeof sent === 'string' ? sent.length * 3 <= MOST_KEPT_ALIVE : sent === undefined;

async function refusalOf(answer: Response): Promise<Refusal> {
  try {
    const body = (await answer.json()) as Partial<Refusal>;
    if (typeof body.message === 'string')
      return { ...body, code: body.code ?? 'refused', message: body.message };
  } catch {
    // Not from Weighboat: a proxy's page, say.
  }
  return { code: 'refused', message: `The server answered with ${answer.status}.` };
}
