/** One of a few, each in words with an example of what it does. */
export function Choice<T extends string>({
  title,
  aid,
  options,
  value,
  onChange,
}: {
  readonly title: string;
  readonly aid?: string;
  readonly options: readonly { readonly value: T; readonly words: string }[];
  readonly value: T;
  readonly onChange: (value: T) => void;
}) {
  const name = title.toLowerCase().replaceAll(' ', '-');
  return (
    <fieldset className="settings-choice">
      <legend>{title}</legend>
      {options.map((option) => (
        <label key={option.value}>
          <input
            type="radio"
            name={name}
            value={option.value}
            checked={option.value === value}
            onChange={() => onChange(option.value)}
          />
          <span>{option.words}</span>
        </label>
      ))}
      {aid !== undefined && <p className="quiet">{aid}</p>}
    </fieldset>
  );
}
