import { useState } from 'react';
import type { Session } from '../../wire/session.ts';
import { queryClient, useSession } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';
import { Button } from '../ui/button.tsx';
import { whenText } from '../ui/when.ts';

interface Link {
  readonly path: string;
  readonly expiresAt: string;
}

/** Who is signed in here, a link for another device, the way out; and a copy of everything. */
export function Devices() {
  const session = useSession();
  const [link, setLink] = useState<Link>();
  const [wrong, setWrong] = useState<string>();
  const attempt = async (work: () => Promise<void>) => {
    setWrong(undefined);
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setWrong(error.refusal.message);
    }
  };
  const makeLink = () =>
    attempt(async () =>
      setLink(await request<Link>('/api/links', { method: 'POST', body: { run: null } })),
    );
  const signOut = () =>
    attempt(async () => {
      await request('/api/session', { method: 'DELETE' });
      queryClient.clear();
      window.location.assign('/sign-in');
    });
  return (
    <>
      {session.data !== undefined && <p>{signedInText(session.data)}</p>}
      <div className="row-of-buttons">
        <Button onClick={() => void makeLink()}>Make a link for another device</Button>
        <Button onClick={() => void signOut()}>Sign out here</Button>
      </div>
      <div role="status">
        {wrong !== undefined && <p className="settings-wrong">{wrong}</p>}
        {link !== undefined && (
          <div className="field settings-link">
            <label htmlFor="settings-link">Open this once, on the other device</label>
            <input
              id="settings-link"
              type="text"
              readOnly
              value={window.location.origin + link.path}
              onFocus={({ target }) => target.select()}
            />
            <span className="aid">Good until {whenText(link.expiresAt)}.</span>
          </div>
        )}
      </div>
    </>
  );
}

function signedInText({ person }: Session): string {
  return `This device is signed in as ${person.name}.`;
}
