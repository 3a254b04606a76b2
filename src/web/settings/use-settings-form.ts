import { useEffect, useState } from 'react';
import type { Settings } from '../../wire/settings.ts';
import { queryClient } from '../api/queries.ts';
import { request } from '../api/request.ts';
import { settingsKeeper } from './keeper.ts';
import type { KeeperTools } from './keeper.ts';

const PATH = '/api/settings';

const tools = (changed: KeeperTools['changed']): KeeperTools => ({
  read: () => request<Settings>(PATH),
  write: async (settings) => {
    const kept = await request<Settings>(PATH, { method: 'PUT', body: settings });
    queryClient.setQueryData([PATH], kept);
  },
  storage: localStorage,
  changed,
});

/** The form with its keeper, for as long as the page is open. */
export function useSettingsForm(kept: Settings) {
  const [keeper] = useState(() =>
    settingsKeeper(
      kept,
      tools((state) => setState(state)),
    ),
  );
  const [state, setState] = useState(keeper.state);
  useEffect(() => {
    const again = () => void keeper.keepNow();
    const hide = () => {
      if (document.visibilityState === 'hidden') again();
    };
    if (keeper.hasDraft) again();
    window.addEventListener('online', again);
    document.addEventListener('visibilitychange', hide);
    return () => {
      window.removeEventListener('online', again);
      document.removeEventListener('visibilitychange', hide);
      keeper.stop();
    };
  }, [keeper]);
  return { ...state, change: keeper.change };
}
