import { useMemo } from 'react';
import { roomForAll, roomOf } from '../../picture/balance-bar/layout.ts';
import { BalanceSection } from './balance-section.tsx';
import type { Figures } from './figures.ts';
import type { ProductBalance } from './result-of.ts';

/** Where the theoretical mass of every product went, all bars to one scale. */
export function BalancesSection({
  balances,
  figures,
}: {
  readonly balances: readonly ProductBalance[];
  readonly figures: Figures;
}) {
  const { decimal } = figures;
  const room = useMemo(
    () =>
      roomForAll(
        balances.map(({ course, product: { name, recovered } }) =>
          roomOf(course, { name, recovered, decimal }),
        ),
      ),
    [balances, decimal],
  );
  if (balances.length === 0) return null;
  return (
    <section aria-labelledby="result-balance">
      <h2 id="result-balance">Where it went</h2>
      {balances.map((shown, index) => (
        <BalanceSection
          key={shown.balance.substance}
          {...{ shown, figures, room, index }}
          several={balances.length > 1}
        />
      ))}
    </section>
  );
}
