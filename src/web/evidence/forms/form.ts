import type { ReactNode } from 'react';
import type { Subjects } from '../../../core/evidence/subject.ts';
import type { FileReading } from '../../../core/evidence/spectrum/trace.ts';
import type { Technique } from '../../../core/evidence/statement.ts';
import type { DecimalSign } from '../../bench/typed/typed-number.ts';
import type { Built, Draft, DraftReader } from './draft.ts';

/** What a form knows of the run that it is filled for. */
export interface FormWorld {
  readonly subjects: Subjects;
  /** A file of this technique that was kept and waits to be worked up. */
  readonly file?: FileReading;
  readonly fileName?: string;
}

/** How a measurement is entered by hand: the fields, and what is made of them. */
export interface EvidenceForm {
  readonly technique: Technique;
  /** What the draft holds before anything was typed. */
  readonly begin: (world: FormWorld, sign?: DecimalSign) => Draft;
  readonly fields: (world: FormWorld) => ReactNode;
  readonly build: (reader: DraftReader, world: FormWorld) => Built;
}
