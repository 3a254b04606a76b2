import { fireEvent, render, screen, within } from '@testing-library/react';
import { builtInSubstances } from '../../../core/chemistry/substance.ts';
import type { Substance } from '../../../core/chemistry/substance.ts';
import { evidenceEnteredSchema } from '../../../core/evidence/schema.ts';
import type { EvidenceEntered } from '../../../core/evidence/schema.ts';
import type { Literature, SubjectRole, Subjects } from '../../../core/evidence/subject.ts';
import type { DecimalSign } from '../../bench/typed/typed-number.ts';
import { readDraft } from './draft.ts';
import type { Draft, Problems } from './draft.ts';
import { FormPanel } from './form-panel.tsx';
import type { EvidenceForm } from './form.ts';

export function substanceNamed(name: string): Substance {
  const found = builtInSubstances().find((substance) => substance.name === name);
  if (found === undefined) throw new Error(`No substance ${name} in the table.`);
  return found;
}

/** An experiment with this product, and others in their roles. */
export function subjectsFor(
  product: string,
  others: Readonly<Record<string, SubjectRole>> = {},
  literature: Literature = {},
): Subjects {
  return {
    product: { role: 'product', substance: substanceNamed(product), literature },
    others: Object.entries(others).map(([name, role]) => ({
      role,
      substance: substanceNamed(name),
      literature: {},
    })),
  };
}

/** What a draft is worth: the entry, read by its schema, or the problems. */
export function worth(
  form: EvidenceForm,
  draft: Draft,
  subjects: Subjects = { others: [] },
  sign: DecimalSign = '.',
): EvidenceEntered | Problems {
  const world = { subjects };
  const result = form.build(readDraft({ ...form.begin(world), ...draft }, sign), world);
  return result.ok ? evidenceEnteredSchema.parse(result.entered) : result.problems;
}

/** A form on the page, to type in. */
export function openForm(
  form: EvidenceForm,
  subjects: Subjects = { others: [] },
  sign: DecimalSign = '.',
) {
  const kept: EvidenceEntered[] = [];
  const attached: (File | undefined)[] = [];
  render(
    <FormPanel
      form={form}
      world={{ subjects }}
      sign={sign}
      busy={false}
      problem={undefined}
      onKeep={(entered, attach) => {
        kept.push(evidenceEnteredSchema.parse(entered));
        attached.push(attach);
      }}
      onLeave={() => undefined}
    />,
  );
  const place = (row?: string) =>
    row === undefined ? screen : within(screen.getByRole('group', { name: row }));
  const field = (label: string, row?: string) => place(row).getByLabelText<HTMLInputElement>(label);
  return {
    kept,
    /** The picture or file that each entry of `kept` came with. */
    attached,
    field,
    /** Types, or chooses by value, in the field of that label; `row` is called "Run 2". */
    type: (label: string, value: string, row?: string) =>
      fireEvent.change(field(label, row), { target: { value } }),
    tick: (label: string, row?: string) => fireEvent.click(field(label, row)),
    press: (name: string) => fireEvent.click(screen.getByRole('button', { name })),
    keep: () => fireEvent.click(screen.getByRole('button', { name: 'Keep it in the record' })),
    /** The words beside a field that say what is wrong. */
    wrong: (label: string, row?: string) => {
      const described = field(label, row).getAttribute('aria-describedby') ?? '';
      const id = described.split(' ').find((one) => one.endsWith('-wrong'));
      return id === undefined ? undefined : document.getElementById(id)?.textContent;
    },
  };
}
