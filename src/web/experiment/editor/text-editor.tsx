import { useEffect, useRef } from 'react';
import type { Desk } from '../desk.ts';
import { LineFindings } from './line-findings.tsx';
import './text-editor.css';

/** The text of the experiment, and below it what is to be said of the line at hand. */
export function TextEditor({ desk }: { readonly desk: Desk }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => desk.mount(host.current!), [desk]);
  return (
    <section className="experiment-text" aria-label="Text">
      <div ref={host} className="experiment-editor" />
      <LineFindings desk={desk} />
    </section>
  );
}
