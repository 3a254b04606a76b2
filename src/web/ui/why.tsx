import { useRef, useState } from 'react';
import type { ReactNode } from 'react';
import { Dialog, Popover } from 'react-aria-components';
import './figure.css';

/**
 * A number that answers "why?": focus and press, or tap, and its derivation opens beside it. A page
 * shows dozens of them, so that all but the open one are plain buttons.
 */
export function Why({
  figure,
  title,
  children,
}: {
  readonly figure: ReactNode;
  /** What the derivation is of: "Theoretical yield". */
  readonly title: string;
  readonly children: ReactNode;
}) {
  const [open, setOpen] = useState(false);
  const trigger = useRef<HTMLButtonElement>(null);
  // The popover wants to close when the page scrolls, and a page scrolls as focus comes to a number
  // below its edge: what somebody has just opened would be gone. It moves with the page instead.
  const change = (next: boolean) => {
    if (next || window.event?.type !== 'scroll') setOpen(next);
  };
  return (
    <>
      <button
        ref={trigger}
        type="button"
        className="why"
        aria-haspopup="dialog"
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        {figure}
      </button>
      {open && (
        <Popover
          isOpen
          onOpenChange={change}
          triggerRef={trigger}
          isNonModal
          className="derivation"
          placement="bottom start"
          UNSTABLE_portalContainer={document.getElementById('main') ?? document.body}
        >
          <Dialog aria-label={title}>{children}</Dialog>
        </Popover>
      )}
    </>
  );
}
