import { Page } from '../ui/page.tsx';

export function ExperimentPage() {
  return <Page title="ExperimentPage">…</Page>;
}
