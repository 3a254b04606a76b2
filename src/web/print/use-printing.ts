import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';
import { pageRules } from './page-rules.ts';
import type { Paper } from './page-rules.ts';

/**
 * True while the page goes to paper. What only paper shows is made then and not at every key. The
 * rules of the pages come as a sheet of their own, since their foot names the version.
 */
export function usePrinting(paper: Paper): boolean {
  const [printing, setPrinting] = useState(false);
  const { size, foot } = paper;
  useEffect(() => {
    const rules = new CSSStyleSheet();
    rules.replaceSync(pageRules({ size, foot }));
    document.adoptedStyleSheets.push(rules);
    const begin = () => flushSync(() => setPrinting(true));
    const end = () => setPrinting(false);
    window.addEventListener('beforeprint', begin);
    window.addEventListener('afterprint', end);
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== rules);
      window.removeEventListener('beforeprint', begin);
      window.removeEventListener('afterprint', end);
    };
  }, [size, foot]);
  return printing;
}
