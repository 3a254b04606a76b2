import { useState } from 'react';
import type { NewVersion, Version } from '../../wire/experiment.ts';
import { askAgain } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';

export interface WentBack {
  readonly text: string;
  readonly wrong: boolean;
}

/** Saves the text of an old version as the newest one: nothing that was saved is lost by it. */
export function useGoingBack(experiment: string, newest: number) {
  const [said, setSaid] = useState<WentBack>();
  const goBack = async ({ number, name }: Version) => {
    const path = `/api/experiments/${experiment}/versions`;
    try {
      const { text } = await request<Version & { text: string }>(`${path}/${number}`);
      const body: NewVersion = { text, base: newest };
      const made = await request<Version>(path, { method: 'POST', body });
      await askAgain(`/api/experiments/${experiment}`, '/api/experiments');
      const old = name === null ? `version ${number}` : `version ${number}, “${name}”,`;
      setSaid(
        made.number === newest
          ? { text: `The newest version has the text of ${old} already.`, wrong: false }
          : {
              text: `The text of ${old} is now version ${made.number}. Version ${newest} is still there.`,
              wrong: false,
            },
      );
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      const { message, code } = error.refusal;
      const moved = code === 'version-moved';
      if (moved) await askAgain(`/api/experiments/${experiment}`);
      setSaid({
        text: moved
          ? `${message} Nothing was changed: look at the newest version, and go back then if you still want to.`
          : `${message} Nothing was changed.`,
        wrong: true,
      });
    }
  };
  return { said, goBack };
}
