import { Page } from '../ui/page.tsx';

export function ShelfPage() {
  return <Page title="ShelfPage">…</Page>;
}
