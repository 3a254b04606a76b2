import { Page } from '../ui/page.tsx';

export function ComparePage() {
  return <Page title="ComparePage">…</Page>;
}
