import { useEffect, useId, useRef, useState } from 'react';
import { balanceChoices } from './device/preferences.ts';
import type { Preferences } from './device/preferences.ts';
import { canKeepProgram } from './device/program.ts';
import { addressOf } from './device/view.ts';
import { canStayAwake } from './device/wake-lock.ts';
import { useRecord } from './record-context.ts';
import { Glued } from './step/glued.tsx';
import { inSign } from './typed/typed-number.ts';
import { ToExperiment } from './to-experiment.tsx';
import './begin.css';

/** Before the first step: who writes, and on which balance. Both can be changed at any time. */
export function Begin({
  preferences,
  onChange,
  next,
}: {
  readonly preferences: Preferences;
  readonly onChange: (preferences: Preferences) => void;
  /** The step to go on with. */
  readonly next: string | undefined;
}) {
  const { sheet, settings } = useRecord();
  const heading = useRef<HTMLHeadingElement>(null);
  const [asked, setAsked] = useState(false);
  const id = useId();
  const change = (changed: Partial<Preferences>) => onChange({ ...preferences, ...changed });
  useEffect(() => heading.current?.focus({ preventScroll: true }), []);
  const begin = () => {
    if (preferences.by.trim() === '') {
      setAsked(true);
      document.getElementById(id)?.focus();
    } else if (next !== undefined) window.location.hash = addressOf({ kind: 'step', step: next });
  };
  return (
    <form
      className="bench-begin"
      onSubmit={(event) => {
        event.preventDefault();
        begin();
      }}
    >
      <h1 ref={heading} tabIndex={-1}>
        {sheet.title}
      </h1>
      <p className="bench-answer">
        <Glued>{inSign(sheet.answer, settings.decimalSign)}</Glued>
      </p>
      <div className="bench-begin-field">
        <label htmlFor={id}>Your initials</label>
        <input
          id={id}
          value={preferences.by}
          maxLength={12}
          autoComplete="off"
          autoCapitalize="characters"
          spellCheck={false}
          aria-describedby={`${id}-aid`}
          onChange={({ target }) => change({ by: target.value })}
        />
        <p id={`${id}-aid`} className="quiet" role={asked ? 'alert' : undefined}>
          {asked && preferences.by.trim() === ''
            ? 'Write your initials, so that the record says who wrote each line.'
            : 'They stand beside every line that you write.'}
        </p>
      </div>
      <Balances preferences={preferences} change={change} />
      <Device preferences={preferences} change={change} />
      <button type="submit" className="bench-way" data-rank="first">
        To the steps
      </button>
      <ToExperiment />
    </form>
  );
}

interface Part {
  readonly preferences: Preferences;
  readonly change: (changed: Partial<Preferences>) => void;
}

function Balances({ preferences, change }: Part) {
  const { settings } = useRecord();
  const choices = balanceChoices(settings);
  return (
    <fieldset className="bench-begin-field">
      <legend>Your balance</legend>
      {[...choices, { instrument: null, label: 'not named' }].map(({ instrument, label }) => (
        <label key={label} className="bench-option">
          <input
            type="radio"
            name="balance"
            checked={preferences.balance === instrument}
            onChange={() => change({ balance: instrument })}
          />
          {label}
        </label>
      ))}
    </fieldset>
  );
}

function Device({ preferences, change }: Part) {
  return (
    <div className="bench-begin-field">
      {canStayAwake() && (
        <label className="bench-option">
          <input
            type="checkbox"
            checked={preferences.awake}
            onChange={({ target }) => change({ awake: target.checked })}
          />
          Keep the screen on
        </label>
      )}
      <p className="quiet">
        {canKeepProgram()
          ? 'Without a network you can go on writing, and open this page again.'
          : 'Without a network you can go on writing, but do not close this page: at this address the browser cannot open it again by itself. What you enter is kept on this device.'}
      </p>
    </div>
  );
}
