import { useEffect, useRef, useState } from 'react';
import type { EvidenceEntered } from '../../../core/evidence/schema.ts';
import { techniqueWords } from '../../../core/evidence/technique-words.ts';
import { sentenceStart } from '../../../core/quantity/sentence.ts';
import type { DecimalSign } from '../../bench/typed/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { FormContext, readDraft } from './draft.ts';
import type { Draft, Problems } from './draft.ts';
import type { EvidenceForm, FormWorld } from './form.ts';
import './forms.css';

/** A field, or a group of lines, that has to be mended. */
const WRONG = '.evidence-form :is([aria-invalid], [data-wrong])';

/** One measurement being typed. What is wrong stands at its field; what was typed stays. */
export function FormPanel({
  form,
  world,
  sign,
  busy,
  problem,
  onKeep,
  onLeave,
}: {
  readonly form: EvidenceForm;
  readonly world: FormWorld;
  readonly sign: DecimalSign;
  readonly busy: boolean;
  readonly problem: string | undefined;
  /** `attach`: a picture or file that is kept with the entry. */
  readonly onKeep: (entered: EvidenceEntered, attach?: File) => void;
  readonly onLeave: () => void;
}) {
  const title = techniqueWords(form.technique);
  const [draft, setDraft] = useState<Draft>(() => form.begin(world, sign));
  const [problems, setProblems] = useState<Problems>({});
  const set = (field: string, value: Draft[string]) =>
    setDraft((before) => ({ ...before, [field]: value }));
  const place = useRef<HTMLFormElement>(null);
  // The button that opened the form is gone: the keyboard goes on in the first field.
  useEffect(() => place.current?.querySelector<HTMLElement>('input, select')?.focus(), []);
  const count = Object.keys(problems).length;
  return (
    <form
      ref={place}
      className="evidence-form"
      aria-label={title}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        const result = form.build(readDraft(draft, sign), world);
        setProblems(result.ok ? {} : result.problems);
        if (result.ok) onKeep(result.entered, result.attach);
        else requestAnimationFrame(() => document.querySelector<HTMLElement>(WRONG)?.focus());
      }}
    >
      <h3>{sentenceStart(title)}</h3>
      <FormContext value={{ draft, set, sign, problems }}>{form.fields(world)}</FormContext>
      <p role="status">
        {count > 0 && `${count === 1 ? 'One thing is' : `${count} things are`} not right yet.`}
      </p>
      {problem !== undefined && <p role="alert">{problem}</p>}
      <div className="row-of-buttons">
        <Button type="submit" rank="first" disabled={busy}>
          Keep it in the record
        </Button>
        <Button rank="plain" onClick={onLeave}>
          Leave it out
        </Button>
      </div>
    </form>
  );
}
