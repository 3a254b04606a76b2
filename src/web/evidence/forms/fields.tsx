import { useId, useRef } from 'react';
import type { ReactNode } from 'react';
import { FormContext, useForm } from './draft.ts';
import type { Draft } from './draft.ts';

interface Labelled {
  readonly name: string;
  readonly label: string;
  readonly aid?: string;
}

/** A number with its unit behind it; typed with the decimal sign of the laboratory. */
export function NumberField({ unit, ...field }: Labelled & { readonly unit?: string }) {
  return (
    <Labelling {...field}>
      {(attributes) => (
        <span className="evidence-number">
          <input {...attributes} inputMode="decimal" autoComplete="off" size={9} />
          {unit !== undefined && <span>{unit}</span>}
        </span>
      )}
    </Labelling>
  );
}

export function TextField(field: Labelled) {
  return (
    <Labelling {...field}>
      {(attributes) => <input {...attributes} type="text" autoComplete="off" />}
    </Labelling>
  );
}

/** Many lines: a list, or a table that is pasted. */
export function TextAreaField({ lines = 6, ...field }: Labelled & { readonly lines?: number }) {
  return (
    <Labelling {...field}>
      {(attributes) => (
        <textarea {...attributes} rows={lines} autoComplete="off" spellCheck={false} />
      )}
    </Labelling>
  );
}

interface InputAttributes {
  readonly id: string;
  readonly value: string;
  readonly onChange: (event: { readonly target: { readonly value: string } }) => void;
  readonly 'aria-describedby': string | undefined;
  readonly 'aria-invalid': true | undefined;
}

function Labelling({
  name,
  label,
  aid,
  children,
}: Labelled & { readonly children: (attributes: InputAttributes) => ReactNode }) {
  const { draft, set, problems } = useForm();
  const id = useId();
  const problem = problems[name];
  const value = draft[name];
  const described = [
    ...(aid === undefined ? [] : [`${id}-aid`]),
    ...(problem === undefined ? [] : [`${id}-wrong`]),
  ].join(' ');
  return (
    <div className="field evidence-field">
      <label htmlFor={id}>{label}</label>
      {children({
        id,
        value: typeof value === 'string' ? value : '',
        onChange: ({ target }) => set(name, target.value),
        'aria-describedby': described === '' ? undefined : described,
        'aria-invalid': problem === undefined ? undefined : true,
      })}
      {aid !== undefined && (
        <span id={`${id}-aid`} className="aid">
          {aid}
        </span>
      )}
      {problem !== undefined && (
        <span id={`${id}-wrong`} className="wrong">
          {problem}
        </span>
      )}
    </div>
  );
}

/** A value, what it is called, and the heading that it stands under. */
export type Option = readonly [value: string, words: string, group?: string];

/** One of a list; the first stands until another is chosen. */
export function ChoiceField({
  options,
  ...field
}: Labelled & { readonly options: readonly Option[] }) {
  return (
    <Labelling {...field}>
      {({ value, ...attributes }) => (
        <select {...attributes} value={value === '' ? options[0]?.[0] : value}>
          {groupsOf(options).map(([group, listed]) =>
            group === undefined ? (
              listed.map((option) => <Listed key={option[0]} option={option} />)
            ) : (
              <optgroup key={group} label={group}>
                {listed.map((option) => (
                  <Listed key={option[0]} option={option} />
                ))}
              </optgroup>
            ),
          )}
        </select>
      )}
    </Labelling>
  );
}

function Listed({ option: [value, words] }: { readonly option: Option }) {
  return <option value={value}>{words}</option>;
}

function groupsOf(options: readonly Option[]): [string | undefined, readonly Option[]][] {
  const groups = new Set(options.map(([, , group]) => group));
  return [...groups].map((group) => [group, options.filter((option) => option[2] === group)]);
}

export function FlagField({ name, label }: Labelled) {
  const { draft, set } = useForm();
  return (
    <label className="evidence-flag">
      <input
        type="checkbox"
        checked={draft[name] === true}
        onChange={({ target }) => set(name, target.checked)}
      />
      {label}
    </label>
  );
}

/** Lines of a table; the fields inside go by their own names. */
export function RowsField({
  name,
  label,
  each,
  addText,
  children,
}: Labelled & {
  /** "Peak 2": what a screen reader calls a line. */
  readonly each: string;
  /** Absent where lines come from elsewhere, and are only mended here. */
  readonly addText?: string;
  readonly children: ReactNode;
}) {
  const form = useForm();
  const held = form.draft[name];
  const rows = Array.isArray(held) ? (held as readonly Draft[]) : [];
  const put = (next: readonly Draft[]) => form.set(name, next);
  const fieldset = useRef<HTMLFieldSetElement>(null);
  const adding = useRef<HTMLButtonElement>(null);
  const add = () => {
    put([...rows, {}]);
    // Once the new line is there to type in.
    requestAnimationFrame(() => {
      const lines = fieldset.current?.querySelectorAll<HTMLElement>(':scope > .evidence-row');
      [...(lines ?? [])].at(-1)?.querySelector<HTMLElement>('input, select')?.focus();
    });
  };
  return (
    <fieldset
      ref={fieldset}
      tabIndex={-1}
      className="evidence-rows"
      data-wrong={form.problems[name] === undefined ? undefined : true}
    >
      <legend>{label}</legend>
      {rows.map((row, i) => (
        <div key={i} role="group" aria-label={`${each} ${i + 1}`} className="evidence-row">
          <span className="evidence-row-number" aria-hidden="true">
            {i + 1}
          </span>
          <FormContext
            value={{
              ...form,
              draft: row,
              set: (field, value) =>
                put(rows.map((one, at) => (at === i ? { ...one, [field]: value } : one))),
              problems: under(form.problems, `${name}.${i}.`),
            }}
          >
            {children}
          </FormContext>
          <button
            type="button"
            className="button"
            data-rank="plain"
            onClick={() => {
              put(rows.filter((_, at) => at !== i));
              (adding.current ?? fieldset.current)?.focus();
            }}
          >
            Take out <span className="spoken">{`${each} ${i + 1}`}</span>
          </button>
        </div>
      ))}
      {addText !== undefined && (
        <button ref={adding} type="button" className="button" onClick={add}>
          {addText}
        </button>
      )}
      {form.problems[name] !== undefined && <p className="wrong">{form.problems[name]}</p>}
    </fieldset>
  );
}

function under(problems: Readonly<Record<string, string>>, path: string) {
  return Object.fromEntries(
    Object.entries(problems)
      .filter(([field]) => field.startsWith(path))
      .map(([field, problem]) => [field.slice(path.length), problem]),
  );
}
