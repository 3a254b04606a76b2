import type { ReactNode } from 'react';
import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import './figure.css';

/** A number that answers "why?": focus and press, or tap, and its derivation opens beside it. */
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
  return (
    <DialogTrigger>
      <Button className="why">{figure}</Button>
      <Popover
        isNonModal
        className="derivation"
        placement="bottom start"
        UNSTABLE_portalContainer={document.getElementById('main') ?? document.body}
      >
        <Dialog aria-label={title}>{children}</Dialog>
      </Popover>
    </DialogTrigger>
  );
}
