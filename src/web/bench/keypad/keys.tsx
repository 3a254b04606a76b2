import type { KeyboardEvent, ReactNode } from 'react';
import type { Typing } from '../typed/typed-number.ts';

const DIGITS = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '0'];

/** The keys themselves. A tap leaves the cursor where it is, so that a keyboard can go on writing. */
export function Keys({
  sign,
  minus,
  press,
  children,
}: Typing & { readonly press: (key: string) => void; readonly children: ReactNode }) {
  return (
    <div className="bench-keys" onMouseDown={(event) => event.preventDefault()}>
      {DIGITS.map((digit) => (
        <button key={digit} type="button" data-key={digit} onClick={() => press(digit)}>
          {digit}
        </button>
      ))}
      <button
        type="button"
        data-key="sign"
        aria-label={sign === '.' ? 'decimal point' : 'decimal comma'}
        onClick={() => press(sign)}
      >
        {sign}
      </button>
      {minus && (
        <button type="button" data-key="minus" aria-label="minus" onClick={() => press('-')}>
          −
        </button>
      )}
      {children}
    </div>
  );
}

/** What a key of a physical keyboard does while a key of ours has the focus. */
export function typedBeside(
  { key, target, metaKey, ctrlKey, altKey }: KeyboardEvent,
  press: (key: string) => void,
  back: () => void,
): boolean {
  if (target instanceof HTMLInputElement || metaKey || ctrlKey || altKey) return false;
  if (key === 'Backspace') back();
  else if (/^[\d.,-]$/.test(key)) press(key);
  else return false;
  return true;
}
