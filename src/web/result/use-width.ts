import { useLayoutEffect, useRef, useState } from 'react';

/** How wide a picture's place is, in whole px, now and after every change. */
export function useWidth<E extends HTMLElement>() {
  const place = useRef<E>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return undefined;
    const measure = () => setWidth(Math.floor(element.clientWidth));
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [place, width] as const;
}
