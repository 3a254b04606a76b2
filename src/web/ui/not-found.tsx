import { Link } from 'react-router';
import { Page } from './page.tsx';

export function NotFoundPage() {
  return (
    <Page title="Not here">
      <h1>There is nothing at this address.</h1>
      <p>
        The experiment may have been put away, or the address has lost a letter.{' '}
        <Link to="/">To the experiments</Link>
      </p>
    </Page>
  );
}
