import { Button } from '../ui/button.tsx';
import { Page } from '../ui/page.tsx';
import { useToken } from './use-token.ts';
import type { SigningIn } from './use-token.ts';
import './sign-in.css';

const leaveFor = (path: string) => window.location.replace(path);

/** For someone with a link, and for anyone who is not signed in: how one gets a link. */
export function SignInPage() {
  const state = useToken(leaveFor);
  return (
    <Page title="Sign in">
      <div className="sign-in">
        {state.kind === 'asking' ? (
          <h1 role="status">Signing in …</h1>
        ) : (
          <>
            <Answer state={state} />
            <HowToGetIn />
          </>
        )}
      </div>
    </Page>
  );
}

function Answer({ state }: { readonly state: Exclude<SigningIn, { kind: 'asking' }> }) {
  if (state.kind === 'without') return <h1>You need a link to come in.</h1>;
  return (
    <div role="alert">
      <h1>{state.message}</h1>
      {state.again !== undefined && <Button onClick={state.again}>Try again</Button>}
    </div>
  );
}

function HowToGetIn() {
  return (
    <>
      <p>
        In the window where Weighboat runs, press <kbd>Enter</kbd>: it shows a new link. Open that
        link here.
      </p>
      <p>
        At a bench, ask whoever started the bench record for its link: they find it beside the
        record, also as a code to scan.
      </p>
      <p className="quiet">
        A link works once and for a short time. After that this device stays signed in.
      </p>
    </>
  );
}
