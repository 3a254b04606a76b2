import { useEffect, useRef } from 'react';
import { Link } from 'react-router';
import { Button } from '../ui/button.tsx';
import type { Notice } from './use-shelf.ts';

/** What was just done, in the page. Takes the focus where the button that did it has gone. */
export function ShelfNotice({ notice }: { readonly notice: Notice | undefined }) {
  const undo = useRef<HTMLButtonElement>(null);
  const offered = useRef<Notice>(undefined);
  // At every change, since the list may lose the button a moment after the notice is there.
  useEffect(() => {
    if (offered.current === notice || undo.current === null) return;
    if (document.activeElement !== document.body) return;
    offered.current = notice;
    undo.current.focus();
  });
  return (
    <div role="status" className="shelf-notice" data-wrong={notice?.wrong === true}>
      {notice?.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {notice?.goTo !== undefined && <Link to={notice.goTo.path}>{notice.goTo.words}</Link>}
      {notice?.undo !== undefined && (
        <Button ref={undo} rank="plain" onClick={() => void notice.undo?.()}>
          Undo
        </Button>
      )}
    </div>
  );
}
