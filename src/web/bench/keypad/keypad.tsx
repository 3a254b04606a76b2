import { useEffect, useRef, useState } from 'react';
import type { ReactNode } from 'react';
import type { Typing } from '../typed/typed-number.ts';
import { afterKey, onlyNumber } from '../typed/typed-number.ts';
import { Keys, typedBeside } from './keys.tsx';
import './keypad.css';

export interface Slot {
  /** "from", "to"; shown where there are two. */
  readonly label: string;
  readonly text: string;
}

interface Typed {
  readonly slots: readonly Slot[];
  readonly unit: string;
  readonly typing: Typing;
  /** Gets what now stands in a slot. */
  readonly onText: (slot: number, text: string) => void;
}

/**
 * Large keys in the lower half of the screen, and a line that a physical keyboard writes into. It
 * keeps no text of its own.
 */
export function Keypad({
  title,
  aside,
  question,
  enterWord,
  resting = false,
  onEnter,
  onClose,
  children,
  ...typed
}: Typed & {
  readonly title: string;
  /** The plan, the balance. */
  readonly aside: ReactNode;
  readonly question: string | undefined;
  readonly enterWord: string;
  /** The key does nothing for now: a second tap was meant for what it said before. */
  readonly resting?: boolean;
  readonly onEnter: () => void;
  readonly onClose: () => void;
  readonly children?: ReactNode;
}) {
  const { slots, typing, onText } = typed;
  const [active, setActive] = useState(0);
  const frame = useRef<HTMLElement>(null);
  useEffect(() => {
    const { current } = frame;
    current?.querySelector('input')?.focus({ preventScroll: true });
    current?.closest('.bench-field')?.scrollIntoView?.({ block: 'start' });
  }, []);
  const text = slots[active]!.text;
  const press = (key: string) => onText(active, afterKey(text, key, typing));
  const back = () => onText(active, text.slice(0, -1));
  const enter = () => {
    if (resting) return;
    const empty = slots.findIndex((slot) => slot.text === '');
    if (empty > active) frame.current?.querySelectorAll('input')[empty]?.focus();
    else onEnter();
  };
  return (
    <section
      ref={frame}
      className="bench-keypad"
      aria-label={title}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose();
        else if (typedBeside(event, press, back)) event.preventDefault();
      }}
    >
      <Head title={title} aside={aside} onClose={onClose} />
      <form
        className="bench-keypad-form"
        onSubmit={(event) => {
          event.preventDefault();
          enter();
        }}
      >
        <Lines {...typed} title={title} active={active} onActive={setActive} />
        {children}
        <p className="bench-keypad-question" role="status">
          {question}
        </p>
        <Keys sign={typing.sign} minus={typing.minus} press={press}>
          <Ends enterWord={enterWord} resting={resting} back={back} />
        </Keys>
      </form>
    </section>
  );
}

function Ends({
  enterWord,
  resting,
  back,
}: {
  readonly enterWord: string;
  readonly resting: boolean;
  readonly back: () => void;
}) {
  return (
    <>
      <button type="button" data-key="delete" onClick={back}>
        Delete
      </button>
      <button type="submit" data-key="enter" aria-disabled={resting}>
        {enterWord}
      </button>
    </>
  );
}

function Head({
  title,
  aside,
  onClose,
}: {
  readonly title: string;
  readonly aside: ReactNode;
  readonly onClose: () => void;
}) {
  return (
    <div className="bench-keypad-head">
      <p className="bench-keypad-title">
        {title}
        <span className="bench-keypad-aside">{aside}</span>
      </p>
      <button type="button" className="bench-keypad-close" onClick={onClose}>
        Close
      </button>
    </div>
  );
}

/** What is typed, with its unit: one line, or two for a range. */
function Lines({
  slots,
  unit,
  typing,
  onText,
  title,
  active,
  onActive,
}: Typed & {
  readonly title: string;
  readonly active: number;
  readonly onActive: (slot: number) => void;
}) {
  return (
    <div className="bench-keypad-slots">
      {slots.map((slot, i) => (
        <label key={slot.label} className="bench-keypad-slot">
          {slots.length > 1 ? (
            <span className="bench-keypad-label">{slot.label}</span>
          ) : (
            <span className="spoken">{title}</span>
          )}
          <input
            inputMode="none"
            autoComplete="off"
            enterKeyHint="done"
            data-active={i === active}
            value={slot.text}
            onFocus={() => onActive(i)}
            onChange={({ target }) => onText(i, onlyNumber(target.value, typing))}
          />
          <span className="bench-keypad-unit">{unit}</span>
        </label>
      ))}
    </div>
  );
}
