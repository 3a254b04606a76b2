import { useRef, useState } from 'react';
import { useNavigate } from 'react-router';
import type { ExperimentOpened, ExperimentSummary, NewExperiment } from '../../wire/experiment.ts';
import { askAgain } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';
import { newId } from '../ui/id.ts';
import { BLANK_DOCUMENT, copyOf } from './documents.ts';
import { readIncoming } from './incoming-file.ts';

/** What was just done, and how to undo it or go there; or what could not be done. */
export interface Notice {
  readonly lines: readonly string[];
  readonly wrong?: boolean;
  readonly goTo?: { readonly path: string; readonly words: string };
  readonly undo?: () => Promise<void>;
}

export const titleOf = ({ title }: { readonly title: string }) =>
  title === '' ? 'Untitled experiment' : title;

/** What one can do on the shelf. Nothing here deletes anything. */
export function useShelf() {
  const [notice, setNotice] = useState<Notice>();
  const navigate = useNavigate();
  const add = useAdding();

  const attempt = async (work: () => Promise<Notice | undefined>) => {
    try {
      setNotice(await work());
    } catch (error) {
      setNotice(refusalNotice(error));
    }
  };

  const startBlank = () =>
    attempt(async () => {
      await navigate(`/experiments/${(await add(BLANK_DOCUMENT)).id}`);
      return undefined;
    });

  const copy = ({ id, title }: ExperimentSummary) =>
    attempt(async () => {
      const { text } = await request<ExperimentOpened>(`/api/experiments/${id}`);
      const made = await add(copyOf(text, title));
      return noticeOfNew(`“${titleOf(made)}” is on the shelf.`, made);
    });

  const putAway = (experiment: ExperimentSummary, away: boolean): Promise<void> =>
    attempt(async () => {
      await request(`/api/experiments/${experiment.id}`, {
        method: 'PATCH',
        body: { putAway: away },
      });
      await askAgain('/api/experiments');
      return {
        lines: [`“${titleOf(experiment)}” is ${away ? 'put away' : 'back on the shelf'}.`],
        undo: () => putAway(experiment, !away),
      };
    });

  const addFiles = (files: readonly File[]) =>
    attempt(async () => {
      const added: ExperimentOpened[] = [];
      const lines: string[] = [];
      for (const file of files) {
        const read = await readIncoming(file);
        if (!read.ok) lines.push(`“${read.name}” ${read.why}`);
        else {
          const made = await add(read.text);
          added.push(made);
          lines.push(`“${titleOf(made)}” is on the shelf.`);
        }
      }
      const wrong = added.length < files.length;
      return added.length === 1 && !wrong ? noticeOfNew(lines[0]!, added[0]!) : { lines, wrong };
    });

  return { notice, startBlank, copy, putAway, addFiles };
}

export type ShelfDeeds = ReturnType<typeof useShelf>;

/** A second try after a lost answer sends the same id, so that it makes one experiment. */
function useAdding() {
  const pending = useRef<NewExperiment>(undefined);
  return async (text: string): Promise<ExperimentOpened> => {
    if (pending.current?.text !== text) pending.current = { id: newId(), text };
    const made = await request<ExperimentOpened>('/api/experiments', {
      method: 'POST',
      body: pending.current,
    });
    pending.current = undefined;
    await askAgain('/api/experiments');
    return made;
  };
}

function noticeOfNew(line: string, made: ExperimentOpened): Notice {
  return { lines: [line], goTo: { path: `/experiments/${made.id}`, words: 'Open it' } };
}

function refusalNotice(error: unknown): Notice {
  if (!(error instanceof Refused)) throw error;
  const { message, hint, code } = error.refusal;
  const advice = code === 'no-network' ? 'Is it still running? Try again when it is.' : hint;
  return { lines: [message, ...(advice === undefined ? [] : [advice])], wrong: true };
}
