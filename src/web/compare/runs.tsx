import type { WordRun } from '../../core/report/difference/words.ts';

/** What went out is struck through, what came in is underlined and heavier; both are said aloud. */
export function Runs({ runs }: { readonly runs: readonly WordRun[] }) {
  return runs.map(({ kind, text }, i) => {
    if (kind === 'same') return <span key={i}>{text}</span>;
    const Tag = kind === 'removed' ? 'del' : 'ins';
    // The blank behind a word is not struck through with it.
    const word = text.trimEnd();
    return (
      <span key={i}>
        <Tag>
          <span className="spoken">{kind === 'removed' ? 'out: ' : 'in: '}</span>
          {word}
        </Tag>
        {text.slice(word.length)}
      </span>
    );
  });
}
