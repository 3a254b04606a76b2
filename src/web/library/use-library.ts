import { useState } from 'react';
import type { NewSpectrum, Spectrum, SpectrumChange } from '../../wire/spectrum.ts';
import { askAgain } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';
import { sha256 } from '../bench/photo/sha256.ts';
import type { Said } from './spectrum-form.tsx';

/** What was just done, and how to undo it; or what could not be done. */
export interface LibraryNotice {
  readonly lines: readonly string[];
  readonly wrong?: boolean;
  readonly undo?: () => Promise<unknown>;
}

const structureOf = ({ structure }: Said): string | null =>
  structure.trim() === '' ? null : structure.trim();

/** Sends a file as it is; the same bytes are kept once. */
export async function sendFile(bytes: ArrayBuffer): Promise<string> {
  const hash = await sha256(new Uint8Array(bytes));
  const body = new Blob([bytes], { type: 'application/octet-stream' });
  await request(`/api/attachments/${hash}`, { method: 'PUT', body });
  return hash;
}

/** What one can do with the library. Each says whether it was done; nothing here deletes anything. */
export function useLibrary() {
  const [notice, setNotice] = useState<LibraryNotice>();

  const attempt = async (work: () => Promise<LibraryNotice | undefined>): Promise<boolean> => {
    try {
      setNotice(await work());
      return true;
    } catch (error) {
      setNotice({ lines: linesOf(error), wrong: true });
      return false;
    }
  };

  const add = (id: string, bytes: ArrayBuffer, said: Said) =>
    attempt(async () => {
      const file = await sendFile(bytes);
      const { name, state } = said;
      const body: NewSpectrum = { id, name, structure: structureOf(said), state, file };
      const made = await request<Spectrum>('/api/spectra', { method: 'POST', body });
      await askAgain('/api/spectra');
      return { lines: [`“${made.name}” is in the library.`] };
    });

  const send = async (id: string, body: SpectrumChange) => {
    const changed = await request<Spectrum>(`/api/spectra/${id}`, { method: 'PATCH', body });
    await askAgain('/api/spectra');
    return changed;
  };

  const change = ({ id, smiles, state }: Spectrum, said: Said) =>
    attempt(async () => {
      const structure = structureOf(said);
      const { name } = await send(id, {
        name: said.name,
        ...(structure !== smiles && { structure }),
        ...(said.state !== state && { state: said.state }),
      });
      return { lines: [`“${name}” is changed.`] };
    });

  const putAway = (spectrum: Spectrum, away: boolean): Promise<boolean> =>
    attempt(async () => {
      await send(spectrum.id, { putAway: away });
      return {
        lines: [`“${spectrum.name}” is ${away ? 'put away' : 'back in the library'}.`],
        undo: () => putAway(spectrum, !away),
      };
    });

  return { notice, add, change, putAway };
}

export type LibraryDeeds = ReturnType<typeof useLibrary>;

function linesOf(error: unknown): string[] {
  if (!(error instanceof Refused)) throw error;
  const { message, hint } = error.refusal;
  return hint === undefined ? [message] : [message, hint];
}
