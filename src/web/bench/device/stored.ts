import { useState } from 'react';

/** Kept on this device under a name; what cannot be kept (no room, a private window) is only lost at a reload. */
export function readStored<T>(name: string, otherwise: T): T {
  try {
    const text = localStorage.getItem(name);
    return text === null ? otherwise : (JSON.parse(text) as T);
  } catch {
    return otherwise;
  }
}

export function store(name: string, value: unknown): void {
  try {
    if (value === undefined || value === '') localStorage.removeItem(name);
    else localStorage.setItem(name, JSON.stringify(value));
  } catch {
    // The page still has it.
  }
}

const draftName = (place: string) => `weighboat.draft ${place}`;

/** What was typed and not entered yet: it outlasts a reload. */
export function useDraft(place: string): [string, (text: string) => void] {
  const name = draftName(place);
  const [draft, setDraft] = useState({ name, text: readStored(name, '') });
  const text = draft.name === name ? draft.text : readStored(name, '');
  return [
    text,
    (next) => {
      store(name, next);
      setDraft({ name, text: next });
    },
  ];
}
