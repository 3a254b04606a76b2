import { useMemo } from 'react';
import { Runs } from './runs.tsx';
import { textBlocks } from './text-blocks.ts';

/** Both texts as one; stretches that stayed are folded. */
export function WholeText({ from, to }: { readonly from: string; readonly to: string }) {
  const blocks = useMemo(() => textBlocks(from, to), [from, to]);
  return (
    <div className="compare-text">
      {blocks.map((block, i) => {
        if (block.kind === 'same') return <pre key={i}>{block.text}</pre>;
        if (block.kind === 'folded')
          return (
            <details key={i}>
              <summary>{block.lines} lines that stayed</summary>
              <pre>{block.text}</pre>
            </details>
          );
        return (
          <pre key={i} className="compare-changed">
            <Runs runs={block.runs} />
          </pre>
        );
      })}
    </div>
  );
}
