import { Page } from './page.tsx';

/** While a page's own program is fetched. */
export function OpeningPage() {
  return (
    <Page title="Opening">
      <h1 className="spoken">Opening</h1>
      <p role="status" className="quiet">
        Opening …
      </p>
    </Page>
  );
}
