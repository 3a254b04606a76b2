import type { Version } from '../../wire/experiment.ts';
import { Button } from '../ui/button.tsx';
import { Side } from './side.tsx';
import { useGoingBack } from './use-going-back.ts';

/** Which two versions; with each its name and the way back to it. */
export function Choosing({
  experiment,
  versions,
  pair: { from, to },
  choose,
}: {
  readonly experiment: string;
  readonly versions: readonly Version[];
  readonly pair: { readonly from: number; readonly to: number };
  readonly choose: (pair: { readonly from: number; readonly to: number }) => void;
}) {
  const { said, goBack } = useGoingBack(experiment, versions[0]?.number ?? 1);
  const side = { experiment, versions, goBack: (version: Version) => void goBack(version) };
  return (
    <section aria-label="Versions" className="screen-only">
      <div className="compare-versions">
        <Side
          {...side}
          title="From"
          number={from}
          choose={(number) => choose({ from: number, to })}
        />
        <Side {...side} title="To" number={to} choose={(number) => choose({ from, to: number })} />
        {from !== to && (
          <Button onClick={() => choose({ from: to, to: from })}>The other way round</Button>
        )}
      </div>
      <div role="status" className="compare-said" data-wrong={said?.wrong === true}>
        {said?.text}
      </div>
    </section>
  );
}
