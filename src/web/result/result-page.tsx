import { Page } from '../ui/page.tsx';

export function ResultPage() {
  return <Page title="ResultPage">…</Page>;
}
