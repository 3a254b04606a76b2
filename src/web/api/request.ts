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
  /** Sent as JSON. */
  readonly body?: unknown;
  readonly signal?: AbortSignal;
}

/** Asks the server; throws only `Refused`. The caller names the wire type of the answer. */
export async function request<T>(path: string, asked: Asked = {}): Promise<T> {
  const { method = 'GET', body, signal } = asked;
  let answer: Response;
  try {
    answer = await fetch(path, {
      method,
      credentials: 'same-origin',
      ...(signal && { signal }),
      ...(body !== undefined && {
        body: JSON.stringify(body),
        headers: { 'content-type': 'application/json' },
      }),
    });
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new Refused(0, NO_NETWORK);
  }
  if (!answer.ok) throw new Refused(answer.status, await refusalOf(answer));
  return (answer.status === 204 ? undefined : await answer.json()) as T;
}

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
