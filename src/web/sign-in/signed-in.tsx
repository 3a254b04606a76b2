import { Outlet } from 'react-router';
import { useSession } from '../api/queries.ts';
import { Refused } from '../api/request.ts';
import { SignInPage } from './sign-in-page.tsx';

/** Pages for someone who is signed in; anyone else is told how to get a link. */
export function SignedIn() {
  const session = useSession();
  const unknown = session.error instanceof Refused && session.error.status === 401;
  return unknown ? <SignInPage /> : <Outlet />;
}
