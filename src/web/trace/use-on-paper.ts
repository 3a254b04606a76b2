import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';

/** True while the page goes to paper. */
export function useOnPaper(): boolean {
  const [onPaper, setOnPaper] = useState(false);
  useEffect(() => {
    const begin = () => flushSync(() => setOnPaper(true));
    const end = () => setOnPaper(false);
    window.addEventListener('beforeprint', begin);
    window.addEventListener('afterprint', end);
    return () => {
      window.removeEventListener('beforeprint', begin);
      window.removeEventListener('afterprint', end);
    };
  }, []);
  return onPaper;
}
