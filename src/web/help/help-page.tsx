import { Page } from '../ui/page.tsx';

export function HelpPage() {
  return <Page title="HelpPage">…</Page>;
}
