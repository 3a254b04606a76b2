import { useEffect, useState } from 'react';

const bringsFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;

/** Files dropped anywhere on the page; gives whether some are held over it. */
export function useFileDrop(take: (files: readonly File[]) => void): boolean {
  const [held, setHeld] = useState(false);
  useEffect(() => {
    const over = (event: DragEvent) => {
      if (!bringsFiles(event)) return;
      event.preventDefault();
      setHeld(true);
    };
    const away = (event: DragEvent) => {
      if (event.relatedTarget === null) setHeld(false);
    };
    const drop = (event: DragEvent) => {
      if (!bringsFiles(event)) return;
      event.preventDefault();
      setHeld(false);
      take([...(event.dataTransfer?.files ?? [])]);
    };
    window.addEventListener('dragover', over);
    window.addEventListener('dragleave', away);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', over);
      window.removeEventListener('dragleave', away);
      window.removeEventListener('drop', drop);
    };
  });
  return held;
}
