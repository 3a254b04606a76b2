import type { Keeping, Kept } from '../keep/keeping.ts';

const WORD: { readonly [K in Keeping['kind']]: string } = {
  kept: 'Kept',
  changed: 'Keeping …',
  sending: 'Keeping …',
  noNetwork: 'Kept on this device; no network',
  moved: 'Kept on this device',
  refused: 'Kept on this device',
};

/** How far the text has been kept, in a quiet word. */
export function KeepingWord({ kept: { keeping, onDevice } }: { readonly kept: Kept }) {
  const word =
    onDevice || keeping.kind === 'kept'
      ? WORD[keeping.kind]
      : 'Not kept: this device has no room for it. Copy your text before you leave.';
  return (
    <span role="status" className="experiment-keeping" data-kind={onDevice ? keeping.kind : 'lost'}>
      {word}
      {keeping.kind === 'refused' && `. ${keeping.refusal.message} ${keeping.refusal.hint ?? ''}`}
    </span>
  );
}
