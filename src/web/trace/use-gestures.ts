import { useCallback, useEffect, useRef } from 'react';
import type { PointerEvent, RefObject } from 'react';
import { flushSync } from 'react-dom';
import type { Layout } from '../../picture/spectrum/layout.ts';
import type { Act } from './instrument.ts';

/** A finger that moved less than this was a tap. */
const STILL_px = 5;

interface Held {
  readonly start: { readonly x: number; readonly y: number };
  readonly x: number;
  readonly y: number;
}

/**
 * Pointing, dragging, pinching and the wheel, as acts. All that happens between two frames is acted
 * on in the second, once. A finger that moves up or down scrolls the page, and so does a wheel
 * without Ctrl.
 */
export function useGestures(
  place: RefObject<HTMLElement | null>,
  layout: Layout | undefined,
  act: (act: Act) => void,
  chosen: (x: number, y: number) => void,
) {
  const held = useRef(new Map<number, Held>());
  const latest = useRef(layout);
  latest.current = layout;
  const { now, later } = useFrames(act);

  const spot = useCallback(
    ({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }) => {
      const box = place.current?.getBoundingClientRect();
      return { x: clientX - (box?.left ?? 0), y: clientY - (box?.top ?? 0) };
    },
    [place],
  );

  useWheel(place, latest, later, spot);

  const onPointerDown = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const at = spot(event);
    held.current.set(event.pointerId, { start: at, ...at });
    event.currentTarget.setPointerCapture?.(event.pointerId);
  };

  const onPointerMove = (event: PointerEvent) => {
    const own = latest.current;
    if (own === undefined) return;
    const at = spot(event);
    const before = held.current.get(event.pointerId);
    if (before === undefined) {
      if (event.pointerType !== 'touch') later(pointAt(own, at.x, event.shiftKey));
      return;
    }
    const others = [...held.current.entries()].filter(([id]) => id !== event.pointerId);
    held.current.set(event.pointerId, { ...before, ...at });
    const other = others[0]?.[1];
    if (other === undefined) later({ kind: 'pan', by: -placesOf(own, at.x - before.x) });
    else pinch(own, before, at, other).forEach(later);
  };

  const onPointerUp = (event: PointerEvent) => {
    const own = latest.current;
    const before = held.current.get(event.pointerId);
    held.current.delete(event.pointerId);
    if (own === undefined || before === undefined || event.type === 'pointercancel') return;
    const at = spot(event);
    if (Math.hypot(at.x - before.start.x, at.y - before.start.y) > STILL_px) return;
    now(pointAt(own, at.x, event.shiftKey));
    chosen(at.x, at.y);
  };

  const onPointerLeave = (event: PointerEvent) => {
    if (event.pointerType === 'mouse' && held.current.size === 0)
      later({ kind: 'point', at: null });
  };

  return {
    onPointerDown,
    onPointerMove,
    onPointerUp,
    onPointerCancel: onPointerUp,
    onPointerLeave,
  };
}

/** Acts of one frame together: those that only say where something is now replace each other. */
function useFrames(act: (act: Act) => void) {
  const waiting = useRef<Act[]>([]);
  const frame = useRef(0);
  const run = useRef(act);
  run.current = act;
  useEffect(() => () => cancelAnimationFrame(frame.current), []);
  const flush = useCallback(() => {
    const acts = waiting.current;
    waiting.current = [];
    frame.current = 0;
    flushSync(() => acts.forEach((each) => run.current(each)));
  }, []);
  const later = useCallback(
    (next: Act) => {
      const last = waiting.current.at(-1);
      if (next.kind === 'point' && last?.kind === 'point') waiting.current.pop();
      if (next.kind === 'pan' && last?.kind === 'pan') {
        waiting.current.pop();
        waiting.current.push({ kind: 'pan', by: last.by + next.by });
      } else waiting.current.push(next);
      if (frame.current === 0) frame.current = requestAnimationFrame(flush);
    },
    [flush],
  );
  return { now: act, later };
}

/** React listens to wheels without the right to stop them, so this one is put on by hand. */
function useWheel(
  place: RefObject<HTMLElement | null>,
  latest: RefObject<Layout | undefined>,
  later: (act: Act) => void,
  spot: (event: WheelEvent) => { readonly x: number },
) {
  useEffect(() => {
    const element = place.current;
    const turn = (event: WheelEvent) => {
      const own = latest.current;
      if (own === undefined) return;
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        const factor = Math.exp(-Math.max(-60, Math.min(60, event.deltaY)) * 0.01);
        later({ kind: 'zoom', factor, place: placeAt(own, spot(event).x) });
      } else if (Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
        event.preventDefault();
        later({ kind: 'pan', by: placesOf(own, event.deltaX) });
      }
    };
    element?.addEventListener('wheel', turn, { passive: false });
    return () => element?.removeEventListener('wheel', turn);
  }, [place, latest, later, spot]);
}

const placesOf = ({ stretch, plot }: Layout, px: number): number =>
  (px / (plot.right - plot.left)) * (stretch.to - stretch.from);

const placeAt = (layout: Layout, x: number): number =>
  layout.stretch.from + placesOf(layout, x - layout.plot.left);

function pointAt(layout: Layout, x: number, snap: boolean): Act {
  const { plot, valueAtPx } = layout;
  const inside = Math.min(plot.right, Math.max(plot.left, x));
  return { kind: 'point', at: valueAtPx(inside), ...(snap ? { snap } : {}) };
}

/** Two fingers: as far apart as they are now, about the middle between them. */
function pinch(
  layout: Layout,
  before: { readonly x: number },
  at: { readonly x: number },
  other: { readonly x: number },
): Act[] {
  const [was, is] = [Math.abs(before.x - other.x), Math.abs(at.x - other.x)];
  const middle = (at.x + other.x) / 2;
  const moved = (at.x - before.x) / 2;
  return [
    { kind: 'pan', by: -placesOf(layout, moved) },
    ...(was > 20 && is > 20
      ? [{ kind: 'zoom', factor: is / was, place: placeAt(layout, middle) } as const]
      : []),
  ];
}
