import { useState } from 'react';
import { chooseTheme, themeChoice } from '../ui/theme.ts';
import { Choice } from './choice.tsx';
import { figureIn, figureText } from './figure-in.ts';
import type { Form, Row } from './form.ts';

/** Figures that are numbers are written anew; anything else stays as it was typed. */
export function withDecimalSign(form: Form, decimalSign: '.' | ','): Form {
  const rewritten = (rows: readonly Row[]): Row[] =>
    rows.map((row) => ({
      ...row,
      figures: Object.fromEntries(
        Object.entries(row.figures).map(([key, text]) => {
          const value = figureIn(text);
          return [key, value === undefined ? text : figureText(value, decimalSign)];
        }),
      ),
    }));
  return {
    ...form,
    decimalSign,
    balances: rewritten(form.balances),
    glassware: rewritten(form.glassware),
  };
}

/** How numbers, words and pages are written here; and how bright it is on this device. */
export function Preferences({
  form,
  onChange,
}: {
  readonly form: Form;
  readonly onChange: (form: Form) => void;
}) {
  const [theme, setTheme] = useState(themeChoice);
  return (
    <div className="settings-preferences">
      <Choice
        title="Decimal sign"
        aid="Either is read wherever one types a number."
        value={form.decimalSign}
        onChange={(decimalSign) => onChange(withDecimalSign(form, decimalSign))}
        options={[
          { value: '.', words: 'Point: 1.44 g' },
          { value: ',', words: 'Comma: 1,44 g' },
        ]}
      />
      <Choice
        title="Terms"
        value={form.terms}
        onChange={(terms) => onChange({ ...form, terms })}
        options={[
          { value: 'uk', words: 'UK: separating funnel' },
          { value: 'us', words: 'US: separatory funnel' },
        ]}
      />
      <Choice
        title="Paper"
        value={form.paper}
        onChange={(paper) => onChange({ ...form, paper })}
        options={[
          { value: 'a4', words: 'A4' },
          { value: 'letter', words: 'Letter' },
        ]}
      />
      <Choice
        title="Light or dark"
        aid="On this device alone."
        value={theme}
        onChange={(choice) => {
          chooseTheme(choice);
          setTheme(choice);
        }}
        options={[
          { value: 'system', words: 'As the system' },
          { value: 'light', words: 'Light' },
          { value: 'dark', words: 'Dark' },
        ]}
      />
    </div>
  );
}
