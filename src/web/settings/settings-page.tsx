import { Page } from '../ui/page.tsx';

export function SettingsPage() {
  return <Page title="SettingsPage">…</Page>;
}
