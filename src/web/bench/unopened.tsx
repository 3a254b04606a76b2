import type { ReactNode } from 'react';
import type { Refusal } from '../../wire/common.ts';

/** Why there is no record to be seen, and how to get to it. */
export function Unopened({
  why,
  refusal,
  toSend = 0,
  children,
}: {
  readonly why: 'no-run' | 'no-store' | 'not-signed-in' | 'refused';
  readonly refusal?: Refusal | undefined;
  readonly toSend?: number;
  readonly children?: ReactNode;
}) {
  const { title, text } = why === 'refused' ? wordsOf(refusal) : WORDS[why];
  return (
    <main className="bench bench-unopened">
      <h1>{title}</h1>
      <p>{text}</p>
      {toSend > 0 && (
        <p>
          {toSend === 1 ? 'One line of this record is' : `${toSend} lines of this record are`} on
          this device and will be sent as soon as it can be.
        </p>
      )}
      {children}
    </main>
  );
}

interface Words {
  readonly title: string;
  readonly text: string;
}

function wordsOf(refusal: Refusal | undefined): Words {
  return {
    title: refusal?.message ?? 'This record cannot be opened now.',
    text: refusal?.hint ?? 'Try again in a moment.',
  };
}

const WORDS: Readonly<Record<'no-run' | 'no-store' | 'not-signed-in', Words>> = {
  'no-run': {
    title: 'This address names no bench record.',
    text: 'Open the link that you were given, or scan its square again.',
  },
  'no-store': {
    title: 'This browser keeps nothing on the device.',
    text: 'What you enter would be lost without a network. Open the page in a usual window, not a private one.',
  },
  'not-signed-in': {
    title: 'This device is not signed in.',
    text: 'Ask whoever runs the laboratory for the link to your bench, and open it on this device. It works once.',
  },
};
