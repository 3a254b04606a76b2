import { Outlet, useLocation } from 'react-router';
import type { Session } from '../../wire/session.ts';
import { useSession } from '../api/queries.ts';
import { Refused } from '../api/request.ts';
import { Page } from '../ui/page.tsx';
import { SignInPage } from './sign-in-page.tsx';

/** Pages for someone who is signed in; anyone else is told how to get a link. */
export function SignedIn() {
  const session = useSession();
  const { pathname } = useLocation();
  const unknown = session.error instanceof Refused && session.error.status === 401;
  if (unknown) return <SignInPage />;
  const bench = session.data === undefined ? undefined : benchOnly(session.data);
  if (bench !== undefined && pathname !== `/runs/${bench}`) return <OneBench run={bench} />;
  return <Outlet />;
}

/** The only run that a session may see. */
function benchOnly({ role, run }: Session): string | undefined {
  return role === 'bench' && run !== null ? run : undefined;
}

function OneBench({ run }: { readonly run: string }) {
  return (
    <Page title="Your bench record">
      <h1>This device is signed in for one bench record.</h1>
      <p>
        <a href={`/bench/${run}`}>Go to the bench record</a>
      </p>
      <p className="quiet">For everything else, ask the person who runs the class for a link.</p>
    </Page>
  );
}
