import { useEffect, useState } from 'react';

/** Whether a value has stayed what it is for a while. What it is at the beginning counts as settled. */
export function useSettled(value: unknown, pause_ms: number): boolean {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    if (settled === value) return undefined;
    const timer = setTimeout(() => setSettled(value), pause_ms);
    return () => clearTimeout(timer);
  }, [settled, value, pause_ms]);
  return settled === value;
}
