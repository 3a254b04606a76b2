import { useMemo } from 'react';
import { useWidth } from './use-width.ts';

/** A picture drawn to the width of its place. What it draws is escaped where it is drawn. */
export function Picture({
  draw,
  className,
}: {
  readonly draw: (width: number) => string;
  readonly className?: string;
}) {
  const [place, width] = useWidth<HTMLDivElement>();
  const svg = useMemo(() => (width > 0 ? draw(width) : ''), [draw, width]);
  return <div ref={place} className={className} dangerouslySetInnerHTML={{ __html: svg }} />;
}
