import { useEffect, useRef, useState } from 'react';
import { useLocation, useNavigate } from 'react-router';
import type { Session } from '../../wire/session.ts';
import { queryClient } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';

export type SigningIn =
  /** No link was followed. */
  | { readonly kind: 'without' }
  | { readonly kind: 'asking' }
  /** The link was used or has run out, or Weighboat cannot be reached. */
  | { readonly kind: 'refused'; readonly message: string; readonly again?: () => void };

/** Only the sign-in page's own address brings a token; "#extract" of another page is none. */
export function tokenIn({ pathname, hash }: { pathname: string; hash: string }) {
  return pathname === '/sign-in' && hash.length > 1 ? hash.slice(1) : undefined;
}

/** Where a session goes first. A bench's is another program, so that the page has to be left. */
export function firstPage({ role, run }: Session): {
  readonly path: string;
  readonly leave: boolean;
} {
  return role === 'bench' && run !== null
    ? { path: `/bench/${run}`, leave: true }
    : { path: '/', leave: false };
}

/** Uses the token of the address once, and takes it out of the address and the history. */
export function useToken(leaveFor: (path: string) => void): SigningIn {
  const location = useLocation();
  const navigate = useNavigate();
  const [state, setState] = useState<SigningIn>({ kind: 'without' });
  const used = useRef<string>(undefined);
  const token = tokenIn(location);

  useEffect(() => {
    if (token === undefined || used.current === token) return;
    used.current = token;
    void navigate('/sign-in', { replace: true });
    const ask = async () => {
      setState({ kind: 'asking' });
      try {
        const session = await request<Session>('/api/session', { method: 'POST', body: { token } });
        queryClient.clear();
        queryClient.setQueryData(['/api/session'], session);
        const { path, leave } = firstPage(session);
        if (leave) leaveFor(path);
        else await navigate(path, { replace: true });
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        const { message, code } = error.refusal;
        // The token was not used up: it may be sent again.
        const lost = code === 'no-network' ? { again: () => void ask() } : {};
        setState({ kind: 'refused', message, ...lost });
      }
    };
    void ask();
  }, [token, navigate, leaveFor]);

  return token !== undefined && state.kind === 'without' ? { kind: 'asking' } : state;
}
