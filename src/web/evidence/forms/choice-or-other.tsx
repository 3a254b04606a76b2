import { useForm } from './draft.ts';
import type { Draft, DraftReader } from './draft.ts';
import { ChoiceField, TextField } from './fields.tsx';
import type { Option } from './fields.tsx';

/** Chosen where none of the list is meant; no substance is called so. */
const OTHER = '(other)';

/** The field that holds what was written in place of the list. */
const written = (name: string): string => `${name}Other`;

interface Choosing {
  readonly name: string;
  readonly options: readonly Option[];
}

/** One of a list, or a name in the person's own words. */
export function ChoiceOrOther({
  name,
  options,
  label,
  other,
  otherLabel,
  aid,
}: Choosing & {
  readonly label: string;
  /** The last of the list: "another substance". */
  readonly other: string;
  /** Of the field for it: "Its name". */
  readonly otherLabel: string;
  readonly aid?: string;
}) {
  const { draft } = useForm();
  const aided = aid === undefined ? {} : { aid };
  if (options.length === 0) return <TextField name={written(name)} label={label} {...aided} />;
  return (
    <>
      <ChoiceField name={name} label={label} options={[...options, [OTHER, other]]} {...aided} />
      {draft[name] === OTHER && <TextField name={written(name)} label={otherLabel} />}
    </>
  );
}

/** What was chosen or written; undefined where an option without a value was chosen. */
export function readChoiceOrOther(
  reader: DraftReader,
  { name, options }: Choosing,
  longest = 200,
): string | undefined {
  const first = options[0];
  const chosen = reader.text(name) ?? (first === undefined ? OTHER : first[0]);
  if (chosen !== OTHER) return chosen === '' ? undefined : chosen;
  const own = reader.text(written(name), longest);
  if (own === undefined) reader.say(written(name), 'This is needed.');
  return own;
}

/** What a draft holds where this was chosen, or written in place of the list. */
export function choosing({ name, options }: Choosing, value: string): Draft {
  const isListed = options.some(([option]) => option === value);
  return isListed ? { [name]: value } : { [name]: OTHER, [written(name)]: value };
}
